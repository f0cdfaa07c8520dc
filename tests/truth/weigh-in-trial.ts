import { scaleFacts } from '../../src/facts/charge/scale-facts.ts';
import { drawnMass } from '../../src/facts/charge/weigh-in.ts';
import { Random } from '../../src/numerics/random.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { type SimulatedWeighIn, simulateWeighIn } from '../../src/simulate/scale/simulate-weigh-in.ts';
import type { TrialName } from './claim.ts';

/** One weigh-in before it happens. */
export interface WeighInPlan extends TrialName {
  readonly massKg: number;
  readonly stepKg: number;
  readonly intervalS: number;
}

/** One weigh-in: what was true, what the scale showed, and what was found. */
export interface WeighInTrial {
  readonly plan: WeighInPlan;
  readonly weighIn: SimulatedWeighIn;
  readonly facts: Partial<Facts>;
  /** With the figure that was written down beside [kg]. */
  readonly drawnKg: number | undefined;
}

/** Draws and reads one weigh-in alone. */
export function weighInTrial(seed: number, number: number): WeighInTrial {
  const random = new Random(seed, number);
  const massKg = random.logUniform(0.04, 4);
  const stepKg = random.choice([0.005, 0.005, 0.01]);
  const intervalS = random.choice([1, 2, 3, 5]);
  const weighIn = simulateWeighIn({
    random,
    massKg,
    cylinderKg: random.uniform(6, 18),
    scaleStepKg: stepKg,
    intervalS,
  });
  const read = Float64Array.from(weighIn.scaleKg, (_, at) => at).filter((at) => !Number.isNaN(weighIn.scaleKg[at]));
  const series = {
    elapsedS: Float64Array.from(read, (at) => weighIn.elapsedS[at]),
    scaleKg: Float64Array.from(read, (at) => weighIn.scaleKg[at]),
  };
  const { upsets } = weighIn.truth;
  const kind = upsets.length === 0 ? 'undisturbed' : upsets.join('+');
  const facts = scaleFacts(series, stepKg);
  const shownKg = Math.round(massKg / stepKg) * stepKg;
  // Now and then another figure is written down.
  const writtenKg = random.chance(0.015) ? Math.round(massKg * 10) / 10 : shownKg;
  const job = { job_id: '1', started_at: '2026-01-01T00:00:00Z', scale_step_kg: stepKg, weighed_in_kg: writtenKg };
  const drawn = drawnMass({ jobId: '1', job, lineSets: [], weighings: [] }, facts);
  return { plan: { seed, number, kind, massKg, stepKg, intervalS }, weighIn, facts, drawnKg: drawn?.kg };
}
