import { Random } from '../../numerics/random.ts';
import type { Job } from '../../records/tables/jobs.ts';
import { seasonC } from '../calendar.ts';
import type { ChargePlan } from '../charge-plan.ts';
import type { JobReadings } from '../job-log.ts';
import type { Refrigerant } from '../line-adders.ts';
import type { JobMishaps } from '../mishaps/draw-mishaps.ts';
import type { PhaseMark } from '../phase-marks.ts';
import type { System } from '../system.ts';
import type { Truth } from '../truth.ts';
import { drawRunTest } from './draw-run-test.ts';
import { joinRunTest } from './join-run-test.ts';
import type { RunModeSpan, RunTestOptions } from './run-test.ts';
import { simulateRunTest } from './run-test-log.ts';

/** What a job's run test is drawn from. */
export interface JobRunTestOptions {
  readonly seed: number;
  readonly number: number;
  readonly day: number;
  readonly system: System;
  readonly used: boolean;
  readonly topUp: boolean;
  readonly plan: ChargePlan;
  readonly atmospherePa: number;
  /** What was logged before it, and the source's marks; a log of another sort than a top-up's must be there. */
  readonly before: JobReadings | undefined;
  readonly marks: readonly PhaseMark[];
  /** From the end of that log to the end of the job [s]. */
  readonly roomS: number;
  readonly intervalS?: number | undefined;
  /** What goes wrong with the job beside; absent: nothing. */
  readonly mishaps?: JobMishaps | undefined;
}

/** What a run test adds to its job: the readings of the whole log with it, and what is known of it. */
export interface JobRunTest {
  readonly readings: JobReadings | undefined;
  readonly marks: readonly PhaseMark[];
  /** On the clock of the log; empty where the source does not say. */
  readonly modes: readonly RunModeSpan[];
  readonly columns: Partial<Job>;
  /** What the cylinder said where that is not what the record says. */
  readonly weighedRefrigerant: Refrigerant | undefined;
  readonly truth: Partial<Truth>;
}

/** Share of logs that go on to a run test where there is time; with the time it comes to some six tenths. */
const LOGGED_SHARE = 0.67;
const TOP_UP_SHARE = 0.9;
/** Share of systems filled anew with something else. */
const WRONG_SHARE = 0.01;
const GAP_S = [60, 500] as const;
const refrigerants: readonly Refrigerant[] = ['R-410A', 'R-32', 'R-454B', 'R-407C'];

/** Draws and simulates the run test of a job; its numbers are its own, so that the rest of the job stays as it is. */
export function simulateJobRunTest(options: JobRunTestOptions): JobRunTest {
  const { number, day, system, used, topUp, plan, atmospherePa, before } = options;
  const random = new Random(options.seed, 1_000_000_000 + number);
  const others = refrigerants.filter((one) => one !== system.refrigerant);
  const drawn = used && !topUp && random.chance(WRONG_SHARE) ? random.choice(others) : undefined;
  const { mishaps } = options;
  const wrong = drawn ?? (used && !topUp && mishaps?.isOtherRefrigerant ? mishaps.random.choice(others) : undefined);
  const refrigerant = wrong ?? system.refrigerant;
  const weighedRefrigerant = random.chance(0.5) ? wrong : undefined;
  const ranTest = random.chance(topUp ? TOP_UP_SHARE : LOGGED_SHARE);
  const test = drawRunTest(random, {
    system,
    refrigerant,
    chargeRatio: plan.deviationKg === undefined ? undefined : 1 + plan.deviationKg / plan.targetKg,
    outdoorC: seasonC(day) + 4 + random.normal(0, 4.5),
    atmospherePa,
    intervalS: options.intervalS,
    mayTrim: false,
  });
  const gapS = Math.round(random.uniform(...GAP_S));
  const marked = topUp ? random.chance(0.5) : options.marks.length > 0;
  const saysMode = random.chance(0.5);
  const fits = topUp || (before !== undefined && gapS + test.durationS < options.roomS);
  if (!ranTest || !fits) {
    const { marks } = options;
    return {
      readings: before,
      marks,
      modes: [],
      columns: {},
      weighedRefrigerant,
      truth: { true_refrigerant: refrigerant },
    };
  }
  const { readings, modes, truth } = simulateRunTest(test);
  const last = before?.elapsedS.at(-1);
  const startS = last === undefined ? 0 : Math.ceil(last) + gapS;
  const onLog = (atS: number | undefined) => (atS === undefined ? undefined : startS + atS);
  return {
    readings: joinRunTest(before, readings, startS),
    marks: marked ? [...options.marks, { fromS: startS, mark: 'run' }] : [],
    modes: saysMode ? modes.map((one) => ({ ...one, fromS: startS + one.fromS })) : [],
    columns: recordColumns(random, test),
    weighedRefrigerant,
    truth: {
      true_refrigerant: refrigerant,
      run_start_s: startS,
      superheat_k: truth.superheatK,
      subcooling_k: truth.subcoolingK,
      steady_start_s: onLog(truth.steadyStartS),
      steady_end_s: onLog(truth.steadyEndS),
      run_pattern: truth.pattern,
      run_upset: truth.upset,
    },
  };
}

/** What the record has of the run test. */
function recordColumns(random: Random, test: RunTestOptions): Partial<Job> {
  const { rated, metering, meteringLocation, compressor, fixedTestMode, instruments } = test;
  const targets = metering !== 'fixed' && meteringLocation === 'indoor' && rated !== undefined && random.chance(0.65);
  return {
    ...(targets && { target_subcooling_k: Math.round(rated.subcoolingK * 2) / 2 }),
    ...(random.chance(0.6) && { pressure_accuracy_ratio: instruments.suction.stepPa < 1000 ? 0.005 : 0.01 }),
    ...(random.chance(0.7) && { clamp_accuracy_k: 0.5 }),
    ...(compressor === 'variable' && random.chance(0.85) && { fixed_test_mode: fixedTestMode === true }),
  };
}
