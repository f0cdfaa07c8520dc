import { pressureTestFacts } from '../../src/facts/pressure-test/pressure-test-facts.ts';
import { Random } from '../../src/numerics/random.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { virialDensity, virialPressure } from '../../src/simulate/nitrogen-virial.ts';
import { runStandingTest, type StandingTestRun } from '../../src/simulate/standing-test.ts';
import type { StandingTrialPlan } from './draw-standing-trial.ts';

/** A standing test, its truth, and what was found. */
export interface StandingTrial {
  readonly plan: StandingTrialPlan;
  readonly run: StandingTestRun;
  readonly facts: Partial<Facts>;
  /** Last hold, as it was [s]. */
  readonly hold: { readonly startS: number; readonly endS: number };
  /** What was lost over the part that was judged, as pressure at its first temperature [Pa]; undefined where none was judged. */
  readonly dropPa: number | undefined;
  /** What the facts took, by the wall clock [ms]. */
  readonly factsMs: number;
}

/**
 * Carries a standing test out and finds its facts.
 *
 * @param stream which noise and weather; @param moreDropPa a loss on top, as drop over the judged part [Pa]
 */
export function standingTrial(
  plan: StandingTrialPlan,
  stream = 1,
  more?: { dropPa: number; overS: number },
): StandingTrial {
  const { test, gauge, clamp, pressurePa } = plan;
  const heldK = test.parts[0].weather.airK;
  const molPerPa = test.volumeM3 / (8.314 * heldK);
  const moreMolPerS = more === undefined ? 0 : (more.dropPa / more.overS) * molPerPa;
  const run = runStandingTest(
    new Random(plan.seed, 700_000 * stream + plan.number),
    { ...test, leakMolPerS: test.leakMolPerS + moreMolPerS },
    gauge,
    clamp,
  );
  const lineK = clamp === undefined ? undefined : run.lineC.map((celsius) => celsius + 273.15);
  const job = {
    barometer_pa: test.atmospherePa,
    test_pressure_target_pa: pressurePa,
    ...(plan.clampRecorded ? { clamp_accuracy_k: plan.clampAccuracyK } : {}),
  };
  const before = performance.now();
  const facts = pressureTestFacts({ job, series: { elapsedS: run.elapsedS, testPa: run.testPa, lineK } });
  const factsMs = performance.now() - before;
  const hold = run.holds.at(-1) ?? { startS: 0, endS: 0 };
  return { plan, run, facts, hold, dropPa: lost(run, hold, facts), factsMs };
}

/** What was lost between the judged moments: the same share of the pressure at the pipe's temperature at the first of them. */
function lost(
  { elapsedS, moles }: StandingTestRun,
  hold: StandingTrial['hold'],
  facts: Partial<Facts>,
): number | undefined {
  const { pressure_settled_s: fromS, pressure_hold_end_s: toS, held_line_k: kelvin, held_test_pa: heldPa } = facts;
  if (fromS === undefined || toS === undefined || kelvin === undefined || heldPa === undefined) return undefined;
  // What was let off on purpose is no loss of the test.
  const [held, left] = [fromS, Math.min(toS, hold.endS)].map((atS) => moles[elapsedS.findLastIndex((s) => s <= atS)]);
  const density = virialDensity(heldPa, kelvin);
  return virialPressure(density, kelvin) - virialPressure((density * left) / held, kelvin);
}
