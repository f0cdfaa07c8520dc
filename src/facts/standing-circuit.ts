import { type CircuitInOperation, type LossBand, lossBand } from '../physics/loss-in-operation.ts';
import type { PerOpening } from '../physics/leak-ratios.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import { siteAtmosphere } from './site-atmosphere.ts';
import { standingVapour } from './standing-vapour.ts';
import type { TestedVolume } from './tested-volume.ts';

/** What a loss rests on beside the leak: the volume that it was seen in, and the circuit as it stands later. */
export interface StandingCircuit {
  readonly volume: TestedVolume;
  readonly operation: CircuitInOperation & { readonly atmospherePa: number };
}

/** The circuit of a job, standing at 70 °F; undefined where its volume or its refrigerant is not known. */
export function standingCircuit(facts: Partial<Facts>, job: Job | undefined): StandingCircuit | undefined {
  const volume = volumeIn(facts);
  const vapour = job?.refrigerant === undefined ? undefined : standingVapour(job.refrigerant);
  if (volume === undefined || vapour === undefined) return undefined;
  return { volume, operation: { ...vapour, atmospherePa: atmosphereOf(facts, job) } };
}

/** The tested volume, as the facts tell it; undefined where they do not. */
export function volumeIn(facts: Partial<Facts>): TestedVolume | undefined {
  const { tested_volume_l: volumeL = 0, tested_volume_low_l: lowL, tested_volume_high_l: highL } = facts;
  const basis = facts.tested_volume_basis;
  if (!(volumeL > 0) || lowL === undefined || highL === undefined || basis === undefined) return undefined;
  return { volumeL, lowL, highL, basis };
}

/** The air's pressure at the site [Pa]: as the facts of the pressure test tell it, else as the record does. */
export function atmosphereOf({ atmosphere_pa: testedPa }: Partial<Facts>, job: Job | undefined): number {
  return testedPa ?? siteAtmosphere(job);
}

/** The band over the sorts of opening, of losses that were computed with the volume, wider by the spread of it. */
export function bandOverVolume(losses: Partial<PerOpening>, { volumeL, lowL, highL }: TestedVolume): LossBand {
  const { lowKgPerYear, highKgPerYear } = lossBand(losses);
  return { lowKgPerYear: lowKgPerYear * (lowL / volumeL), highKgPerYear: highKgPerYear * (highL / volumeL) };
}
