import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import { knownSaturation } from '../known-saturation.ts';

/** What stays in the hoses [kg], its 95 % ends, and what that rests on. */
export interface HoseResidual {
  readonly kg: number;
  readonly lowKg: number;
  readonly highKg: number;
  readonly basis: NonNullable<Facts['hose_residual_basis']>;
}

type Hoses = Pick<
  Job,
  'refrigerant' | 'hose_residual_kg' | 'charging_hose_bore_mm' | 'charging_hose_length_m' | 'charging_hose_phase'
>;

// What follows is common practice, no source; spreads are half the width of a 95 % interval.
/** A recorded residual is good to this ratio, and no better than a gram. */
const recordedSpread = 0.2;
/** Bore, length and density together. */
const computedSpread = 0.15;
/** Hoses stand at about this temperature [K]. */
const hoseK = 298.15;
/** No refrigerant's liquid is denser there. */
const densestKgPerM3 = 1250;
/** A short charging set where nothing is on record: three hoses of 0.9 m and 4.8 mm, and the manifold's passages [m³]. */
const shortSetM3 = 3 * 0.9 * (Math.PI / 4) * 0.0048 ** 2 + 10e-6;

/**
 * Refrigerant that left the cylinder and did not reach the system.
 *
 * As recorded; else the volume of the charging hoses times the density of what stood in them. Where neither is on record
 * nothing is taken off, and it may be as much as a short set holds full of liquid: three hoses of 0.9 m, 4.8 mm bore,
 * and 10 mL of manifold.
 *
 * @param recordedKg of the weighings or the job, where there is one
 */
export function hoseResidual(job: Hoses, recordedKg: number | undefined): HoseResidual {
  if (recordedKg !== undefined) {
    const spreadKg = recordedKg === 0 ? 0 : Math.max(0.001, recordedSpread * recordedKg);
    return {
      kg: recordedKg,
      lowKg: Math.max(0, recordedKg - spreadKg),
      highKg: recordedKg + spreadKg,
      basis: 'recorded',
    };
  }
  const curve = knownSaturation(job.refrigerant);
  if (curve === undefined) return { kg: 0, lowKg: 0, highKg: densestKgPerM3 * shortSetM3, basis: 'assumed' };
  const [liquidKgPerM3, vapourKgPerM3] = [curve.liquidKgPerM3(hoseK), curve.vapourKgPerM3(hoseK)];
  const { charging_hose_bore_mm: boreMm, charging_hose_length_m: lengthM, charging_hose_phase: phase } = job;
  const isKnown = boreMm !== undefined && lengthM !== undefined;
  const volumeM3 = isKnown ? lengthM * (Math.PI / 4) * (boreMm / 1000) ** 2 : shortSetM3;
  const [vapourKg, liquidKg] = [vapourKgPerM3 * volumeM3, liquidKgPerM3 * volumeM3];
  if (isKnown && phase !== undefined) {
    const kg = phase === 'liquid' ? liquidKg : vapourKg;
    // Vapour follows the pressure, which is not known.
    const spread = phase === 'liquid' ? computedSpread : 0.5;
    return { kg, lowKg: kg * (1 - spread), highKg: kg * (1 + spread), basis: 'computed' };
  }
  if (isKnown) return { kg: (vapourKg + liquidKg) / 2, lowKg: vapourKg, highKg: liquidKg, basis: 'computed' };
  return { kg: 0, lowKg: 0, highKg: liquidKg, basis: 'assumed' };
}
