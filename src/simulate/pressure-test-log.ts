import type { Random } from '../numerics/random.ts';
import { drawStandingTest } from './draw-standing-test.ts';
import { type LeakSort, runStandingTest, type TestClamp } from './standing-test.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';
import { testGaugeOf } from './test-gauges.ts';
import { drawHold, drawTestPlan, type TestPlan } from './test-plan.ts';
import { endOfRun, hasClearDrop, holdTruth, type TestReadings, testReadings, type TimedRun } from './test-runs.ts';
import { partsAfter } from './test-weather.ts';
import type { Truth } from './truth.ts';

/** What a job's pressure test is drawn from. */
export interface PressureTestOptions {
  /** Of its own, so that the evacuation's numbers stay what they are without a test. */
  readonly random: Random;
  readonly technician: Technician;
  /** Start, in days since the first, with its fraction. */
  readonly day: number;
  readonly system: System;
  readonly used: boolean;
  readonly lineC: number;
  readonly atmospherePa: number;
  /** Leak of the circuit as the vacuum would see it [Pa/s]. */
  readonly leakPaPerS: number;
  /** Whether a pipe clamp is logged. */
  readonly clamp: boolean;
}

/** A pressure test with what was asked, its readings and its truth. */
export interface PressureTestLog {
  readonly plan: TestPlan;
  /** What of the plan the job's record has. */
  readonly recorded: { readonly target: boolean; readonly design: boolean };
  /** Undefined where nothing was tested or logged. */
  readonly readings: TestReadings | undefined;
  /** Until the pump is connected [s]; 0 where nothing was tested. */
  readonly durationS: number;
  /** Leak of the circuit that the vacuum will see [Pa/s]. */
  readonly leakPaPerS: number;
  readonly truth: Omit<Truth, 'job_id'>;
}

/** Share of records that say what was asked, and what the system is rated for. */
const ASKED_SHARE = 0.85;
const DESIGN_SHARE = 0.35;
/** Share of tests made with a gauge that logs nothing, that stop short of the pressure asked, and that are made again once mended. */
const UNLOGGED_SHARE = 0.1;
const LOW_SHARE = 0.04;
const AGAIN_SHARE = 0.7;

/**
 * Simulates the standing pressure test of one job.
 *
 * Who sees the gauge fall clearly, and cares, mends the leak, and mostly tests again; what is left goes on to the vacuum.
 */
export function simulatePressureTest(options: PressureTestOptions): PressureTestLog {
  const { random, technician, system, leakPaPerS } = options;
  const plan = drawTestPlan(random, technician, system, options.used);
  const recorded = { target: random.chance(ASKED_SHARE), design: random.chance(DESIGN_SHARE) };
  const asked = { plan, recorded };
  if (random.chance(technician.skipsPressureTest))
    return { ...asked, readings: undefined, durationS: 0, leakPaPerS, truth: { pressure_test: 'skipped' } };
  const holdS = drawHold(random, technician, plan, options.day);
  const gauge = testGaugeOf(technician.technicianId, holdS);
  const clamp = drawClamp(random);
  const fillRatio = random.chance(LOW_SHARE) ? random.uniform(0.8, 0.95) : random.uniform(1.002, 1.015);
  const sort = drawSort(random, leakPaPerS * system.testedM3);
  const drawn = { ...options, volumeM3: system.testedM3, sort, shownPa: plan.targetPa * fillRatio, gauge };
  const test = drawStandingTest({ ...drawn, holdS });
  const runs: TimedRun[] = [{ test, run: runStandingTest(random, test, gauge, clamp), fromS: 0 }];
  const mended = leakPaPerS > 0 && hasClearDrop(runs[0], gauge) && random.chance(technician.retests);
  const leftPaPerS = mended ? leakPaPerS * random.uniform(0, 0.02) : leakPaPerS;
  if (mended && random.chance(AGAIN_SHARE)) {
    const fromS = Math.round(endOfRun(runs[0]) + random.uniform(600, 3000));
    const parts = partsAfter(test.parts, fromS);
    // After a night a day is enough.
    const againS = plan.overnight ? 0.35 * holdS : holdS;
    const again = drawStandingTest({ ...drawn, holdS: againS, leakPaPerS: leftPaPerS, parts });
    runs.push({ test: again, run: runStandingTest(random, again, gauge, clamp), fromS });
  }
  const last = runs[runs.length - 1];
  const logged = !random.chance(UNLOGGED_SHARE);
  return {
    ...asked,
    readings: logged ? testReadings(random, runs, options.clamp) : undefined,
    durationS: Math.ceil(endOfRun(last) + random.uniform(120, 900)),
    leakPaPerS: leftPaPerS,
    truth: {
      pressure_test: logged ? 'logged' : 'unlogged',
      pressure_mended: mended,
      ...(leakPaPerS > 0 && { pressure_leak_sort: sort }),
      ...(logged && {
        ...holdTruth(last, clamp),
        pressure_stages: runs.reduce((sum, { run }) => sum + run.holds.length, 0),
        pressure_clamp: options.clamp,
      }),
    },
  };
}

/** A clamp on the line outdoors. One is always there for the truth, logged or not. */
function drawClamp(random: Random): TestClamp {
  return { part: 0, offsetK: random.normal(0, 0.2), gainRatio: random.normal(1, 0.02), stepK: 0.1, noiseK: 0.05 };
}

/** What sort of opening loses that much under vacuum [Pa·m³/s]; the finest ones lose little. Common practice, no source. */
function drawSort(random: Random, leakPaM3PerS: number): LeakSort {
  return random.weighted<LeakSort>(
    leakPaM3PerS > 1e-5 ? { laminar: 0.6, hole: 0.25, molecular: 0.15 } : { laminar: 0.5, molecular: 0.5 },
  );
}
