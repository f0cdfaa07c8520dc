import type { Random } from '../numerics/random.ts';
import { standardAtmosphere } from '../physics/index.ts';
import type { PhaseMark } from './phase-marks.ts';
import { type PressureTestLog, simulatePressureTest } from './pressure-test-log.ts';
import type { Readings } from './recorder.ts';
import type { RunColumn } from './run/run-test.ts';
import type { TestReadings } from './test-runs.ts';
import { simulateVacuumLog, type VacuumLog, type VacuumLogOptions } from './vacuum-log.ts';

/** What a job's log is drawn from. */
export interface JobLogOptions extends Omit<VacuumLogOptions, 'before'> {
  /** The pressure test's own numbers. */
  readonly testRandom: Random;
}

/** The readings of one job, one entry each. */
export interface JobReadings extends Readings, Readonly<Partial<Record<RunColumn, Float64Array>>> {
  /** Pressure of the nitrogen as shown, absolute [Pa]; NaN where not read. */
  readonly testPa: Float64Array;
}

/** A job's pressure test and evacuation, on one clock from the beginning of the log. */
export interface JobLog extends VacuumLog {
  readonly pressureTest: PressureTestLog;
  readonly readings: JobReadings | undefined;
}

/** Simulates the pressure test and then the evacuation of one job, and what is logged of both. */
export function simulateJobLog({ testRandom, ...options }: JobLogOptions): JobLog {
  let pressureTest: PressureTestLog | undefined;
  const vacuum = simulateVacuumLog({
    ...options,
    before(circuit, clamp) {
      pressureTest = simulatePressureTest({
        ...options,
        random: testRandom,
        atmospherePa: standardAtmosphere(options.altitudeM),
        leakPaPerS: circuit.leakPaPerS,
        clamp,
      });
      circuit.leakPaPerS = pressureTest.leakPaPerS;
    },
  });
  if (pressureTest === undefined) throw new TypeError('no pressure test was drawn before the evacuation');
  const durationS = pressureTest.durationS + vacuum.durationS;
  // Where nothing is logged of the vacuum, nobody brought a logger.
  if (vacuum.readings === undefined) {
    const { pressure_test, pressure_leak_sort, pressure_mended } = pressureTest.truth;
    const test = pressure_test === 'logged' ? ('unlogged' as const) : pressure_test;
    const truth = { ...vacuum.truth, pressure_test: test, pressure_leak_sort, pressure_mended };
    return { ...vacuum, readings: undefined, pressureTest, durationS, truth };
  }
  // A test that was not logged is over when the log begins.
  const logged = pressureTest.readings;
  const offsetS = logged === undefined ? 0 : pressureTest.durationS;
  const later = (atS: number | undefined) => (atS === undefined ? undefined : Math.round((atS + offsetS) * 10) / 10);
  const { isolation_start_s, isolation_end_s } = vacuum.truth;
  return {
    ...vacuum,
    pressureTest,
    readings: joined(logged, vacuum.readings, offsetS),
    marks: logged === undefined ? vacuum.marks : joinedMarks(vacuum.marks, offsetS),
    durationS,
    truth: {
      ...vacuum.truth,
      isolation_start_s: later(isolation_start_s),
      isolation_end_s: later(isolation_end_s),
      ...pressureTest.truth,
      log_gap_s: longer(vacuum.truth.log_gap_s, logged?.gapS),
    },
  };
}

/** The longer of two gaps [s]; undefined where there is none. */
function longer(oneS: number | undefined, otherS: number | undefined): number | undefined {
  const longestS = Math.max(oneS ?? 0, otherS ?? 0);
  return longestS > 0 ? Math.round(longestS) : undefined;
}

/** The readings of the vacuum after those of the test. */
function joined(test: TestReadings | undefined, vacuum: Readings, offsetS: number): JobReadings {
  const first = test?.elapsedS.length ?? 0;
  const column = (of: Float64Array | undefined, then: Float64Array | undefined) => {
    const all = new Float64Array(first + vacuum.elapsedS.length);
    if (of === undefined) all.fill(Number.NaN, 0, first);
    else all.set(of);
    if (then === undefined) all.fill(Number.NaN, first);
    else all.set(then, first);
    return all;
  };
  return {
    elapsedS: column(
      test?.elapsedS,
      vacuum.elapsedS.map((atS) => atS + offsetS),
    ),
    vacuumPa: column(undefined, vacuum.vacuumPa),
    testPa: column(test?.testPa, undefined),
    lineC: column(test?.lineC, vacuum.lineC),
    scaleKg: column(undefined, vacuum.scaleKg),
  };
}

/** The marks of a source that sets any, the pressure test before the vacuum. */
function joinedMarks(marks: readonly PhaseMark[], offsetS: number): PhaseMark[] {
  if (marks.length === 0) return [];
  // What began before the vacuum was logged is marked from its first reading on.
  const later = marks.map((one) => ({ ...one, fromS: offsetS + Math.max(0, one.fromS) }));
  return [{ fromS: 0, mark: 'pressure-test' }, ...later];
}
