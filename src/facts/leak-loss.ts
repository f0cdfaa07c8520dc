import { airIntoVacuum } from '../physics/leak-at-operating-pressure.ts';
import { leakFromRise } from '../physics/leak-from-rise.ts';
import type { PerOpening } from '../physics/leak-ratios.ts';
import { type LossBand, lossInOperation } from '../physics/loss-in-operation.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import { siteAtmosphere } from './site-atmosphere.ts';
import { bandOverVolume, type StandingCircuit, standingCircuit } from './standing-circuit.ts';
import { standingVapour } from './standing-vapour.ts';
import type { TestedVolume } from './tested-volume.ts';

/**
 * What a leak seen as a rise would lose in operation: an order of magnitude, as a band that takes in the spread of the
 * volume.
 *
 * Operation is standing at one temperature, its pressure the dew pressure there: a high side in summer has twice as much
 * and loses twice to four times as much.
 *
 * @param leakPaPerS steady rise [Pa/s]; below 0 counts as 0
 * @param volume the volume it was seen in; undefined gives undefined
 * @param refrigerant ASHRAE 34 designation; unknown or absent gives undefined
 * @param atmospherePa of the site [Pa]
 *
 * Source: as `leakAtOperatingPressure`. Accuracy: an order of magnitude.
 */
export function leakLoss(
  leakPaPerS: number,
  volume: TestedVolume | undefined,
  refrigerant: string | undefined,
  atmospherePa: number = siteAtmosphere(undefined),
): LossBand | undefined {
  if (volume === undefined || refrigerant === undefined || !Number.isFinite(leakPaPerS)) return undefined;
  const vapour = standingVapour(refrigerant);
  if (vapour === undefined) return undefined;
  const circuit = { volume, operation: { ...vapour, atmospherePa } };
  return bandOverVolume(lossesByRise(leakPaPerS, circuit), volume);
}

/** What a leak seen as a rise [Pa/s] would lose [kg/year], for each sort of opening, with the volume as it is given. */
export function lossesByRise(leakPaPerS: number, { volume, operation }: StandingCircuit): PerOpening {
  const leakPaM3PerS = leakFromRise(volume.volumeL / 1000, Math.max(0, leakPaPerS));
  return lossInOperation(leakPaM3PerS, airIntoVacuum(operation.atmospherePa), operation);
}

/** What the leak of a job, from least to most, and the smallest that its test could have told, would lose as it stands. */
export function lossFacts(facts: Partial<Facts>, job: Job | undefined): Partial<Facts> {
  const { leak_low_pa_per_s: low, leak_high_pa_per_s: high, smallest_leak_seen_pa_per_s: smallest } = facts;
  if (low === undefined || high === undefined || smallest === undefined) return {};
  const circuit = standingCircuit(facts, job);
  if (circuit === undefined) return {};
  const lossOf = (paPerS: number) => bandOverVolume(lossesByRise(paPerS, circuit), circuit.volume);
  const told = lossOf(smallest);
  return {
    leak_loss_low_kg_per_year: lossOf(low).lowKgPerYear,
    leak_loss_high_kg_per_year: lossOf(high).highKgPerYear,
    smallest_loss_low_kg_per_year: told.lowKgPerYear,
    smallest_loss_high_kg_per_year: told.highKgPerYear,
  };
}
