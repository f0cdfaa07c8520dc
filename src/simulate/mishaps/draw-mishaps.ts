import { Random } from '../../numerics/random.ts';
import type { VacuumGauge } from '../vacuum-gauges.ts';
import { lentGauges } from './other-gauges.ts';

/** What happens to a job, or to what is handed in of it. */
export interface JobMishaps {
  /** Numbers of its own, which leave the job's as they are. */
  readonly random: Random;
  /** Whether its rise has something in it that no model knows; leaking circuits have it more often. */
  readonly isUnmodelled: { readonly leaking: boolean; readonly other: boolean };
  /** How fast the circuit warms during the evacuation, below 0 cools [K/s]; 0 where that does not matter. */
  readonly circuitDriftKPerS: number;
  /** A gauge that logs in the place of the technician's own. */
  readonly lentGauge: VacuumGauge | undefined;
  /** Whether a system that is filled anew gets something else than the record says. */
  readonly isOtherRefrigerant: boolean;
  /** Whether an earlier job's pressures are handed in with it, or something goes wrong with its log. */
  readonly handsIn: 'copy' | 'fault' | 'own';
}

/** Apart from all other streams of a fleet. */
const STREAM = 500_000_000;
/** Shares of jobs; invented. Some cannot happen to the job that they are drawn for. */
const UNMODELLED_SHARE = 0.12;
const UNMODELLED_LEAKING_SHARE = 0.35;
const OTHER_REFRIGERANT_SHARE = 0.08;
const DRIFT_SHARE = 0.05;
const LENT_SHARE = 0.04;
const HANDS_IN = { copy: 0.06, fault: 0.06, own: 0.88 } as const;

/** Draws the mishaps of one job; most have none. */
export function drawMishaps(seed: number, number: number): JobMishaps {
  const random = new Random(seed, STREAM + number);
  const unmodelledAt = random.uniform();
  const drifts = random.chance(DRIFT_SHARE);
  const driftKPerS = random.logUniform(1e-3, 5e-3) * (random.chance(0.3) ? -1 : 1);
  const isLent = random.chance(LENT_SHARE);
  const lent = random.choice(lentGauges);
  return {
    random,
    isUnmodelled: { leaking: unmodelledAt < UNMODELLED_LEAKING_SHARE, other: unmodelledAt < UNMODELLED_SHARE },
    circuitDriftKPerS: drifts ? driftKPerS : 0,
    lentGauge: isLent ? lent : undefined,
    isOtherRefrigerant: random.chance(OTHER_REFRIGERANT_SHARE),
    handsIn: random.weighted<JobMishaps['handsIn']>(HANDS_IN),
  };
}
