import type { Random } from '../numerics/random.ts';
import { virialPressure } from './nitrogen-virial.ts';
import type { StandingTest, StandingTestRun, TestClamp, TestGauge } from './standing-test.ts';
import type { Truth } from './truth.ts';

/** A standing test that was run, and when it began on the clock of the log [s]. */
export interface TimedRun {
  readonly test: StandingTest;
  readonly run: StandingTestRun;
  readonly fromS: number;
}

/** What was logged of a pressure test, one entry a reading. */
export interface TestReadings {
  readonly elapsedS: Float64Array;
  /** As shown, absolute [Pa]. */
  readonly testPa: Float64Array;
  /** NaN where not read. */
  readonly lineC: Float64Array;
  /** How long nothing was recorded in one piece [s]; 0 where nothing is missing. */
  readonly gapS: number;
}

/** Who watches a gauge reads it for the first time so long after filling [s]. */
const FIRST_LOOK_S = 30;
/** What is seen as a clear drop, as a ratio of the pressure, and in steps of the gauge. */
const CLEAR_RATIO = 0.007;
const CLEAR_STEPS = 2;
/** Share of logs with a gap. */
const GAP_SHARE = 0.06;

const tenth = (seconds: number) => Math.round(seconds * 10) / 10;

/** When the last reading of a run was, on the clock of the log [s]. */
export function endOfRun({ run, fromS }: TimedRun): number {
  return fromS + run.elapsedS[run.elapsedS.length - 1];
}

/** Whether who watches the gauge sees it fall, and by more than the cooling of the pipe would excuse. */
export function hasClearDrop({ test, run: { elapsedS, testPa, lineC, holds } }: TimedRun, gauge: TestGauge): boolean {
  const { startS, endS } = holds[holds.length - 1];
  const from = elapsedS.findIndex((atS) => atS >= startS + FIRST_LOOK_S);
  const to = elapsedS.findLastIndex((atS) => atS <= endS);
  const cooledK = Math.max(0, lineC[from] - lineC[to]);
  const droppedPa = testPa[from] - testPa[to] - (testPa[from] * cooledK) / (lineC[from] + 273.15);
  return droppedPa > Math.max(CLEAR_STEPS * gauge.stepPa, CLEAR_RATIO * (testPa[from] - test.atmospherePa));
}

/** When the last hold was, and what it truly lost; the temperature of the pipe is what the clamp shows less its offset. */
export function holdTruth({ test, run, fromS }: TimedRun, clamp: TestClamp): Partial<Truth> {
  const { elapsedS, lineC, moles, holds } = run;
  const { startS, endS } = holds[holds.length - 1];
  const from = elapsedS.findIndex((atS) => atS >= startS);
  const to = elapsedS.findLastIndex((atS) => atS <= endS);
  // From one reading to the next the loss is steady.
  const molPerS = (at: number) => (moles[at + 1] - moles[at]) / (elapsedS[at + 1] - elapsedS[at]);
  const startMol = moles[from] - molPerS(from) * (elapsedS[from] - startS);
  const endMol = moles[to] + molPerS(to - 1) * (endS - elapsedS[to]);
  const pipeK = lineC[from] - clamp.offsetK + 273.15;
  const pressureOf = (mol: number) => virialPressure(mol / test.volumeM3, pipeK);
  return {
    pressure_hold_start_s: tenth(fromS + startS),
    pressure_hold_end_s: tenth(fromS + endS),
    pressure_drop_pa: pressureOf(startMol) - pressureOf(endMol),
    pressure_leak_mol_per_s: test.leakMolPerS,
  };
}

/** The readings of all runs, one after the other; some logs miss some minutes. */
export function testReadings(random: Random, runs: readonly TimedRun[], clamp: boolean): TestReadings {
  const endS = Math.max(...runs.map(endOfRun));
  // Never the very end: what is missing there is a log cut, not a gap.
  const gapS = random.chance(GAP_SHARE) ? random.uniform(60, Math.min(900, 0.3 * endS)) : 0;
  const gapFromS = random.uniform(0, endS - gapS - 60);
  const count = runs.reduce((sum, { run }) => sum + run.elapsedS.length, 0);
  const elapsedS = new Float64Array(count);
  const testPa = new Float64Array(count);
  const lineC = new Float64Array(count).fill(Number.NaN);
  let kept = 0;
  for (const { run, fromS } of runs) {
    for (let at = 0; at < run.elapsedS.length; at++) {
      const atS = tenth(fromS + run.elapsedS[at]);
      if (atS >= gapFromS && atS < gapFromS + gapS) continue;
      elapsedS[kept] = atS;
      testPa[kept] = run.testPa[at];
      if (clamp) lineC[kept] = run.lineC[at];
      kept++;
    }
  }
  return {
    elapsedS: elapsedS.subarray(0, kept),
    testPa: testPa.subarray(0, kept),
    lineC: lineC.subarray(0, kept),
    gapS,
  };
}
