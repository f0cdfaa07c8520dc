import { toInterchange } from '../../units/unit.ts';
import type { Job } from '../../records/tables/jobs.ts';

type Instruments = Pick<Job, 'clamp_accuracy_k' | 'pressure_accuracy_ratio'>;

const psiPa = toInterchange(1, 'psia');
/** Gauges of which nothing is recorded: within 3.5 psi on the suction side, 7 psi on the liquid side. Source: `title-24-ra3-2`. */
const usualPa = { suction: 3.5 * psiPa, liquid: 7 * psiPa } as const;
/** Clamps of which nothing is recorded [K]: common practice, no source. */
const usualClampK = 1;

/** Standard uncertainty of a pressure [Pa]: what is recorded is taken for the half of a 95 % interval. */
export function pressureUncertainty(
  job: Instruments | undefined,
  side: 'suction' | 'liquid',
  pressurePa: number,
): number {
  const ratio = job?.pressure_accuracy_ratio;
  return (ratio === undefined ? usualPa[side] : ratio * pressurePa) / 1.96;
}

/** Standard uncertainty of a line's temperature [K]. */
export function clampUncertainty(job: Instruments | undefined): number {
  return (job?.clamp_accuracy_k ?? usualClampK) / 1.96;
}

/** A clamp is drawn this far from its line to the air around it, one standard deviation [ratio]. Common practice, no source. */
const airShare = 0.02;

/** Standard uncertainty of a line's temperature by the air around its clamp [K]; 0 where that is not known. */
export function airUncertainty(lineK: number, airK: number): number {
  return Number.isNaN(airK) ? 0 : airShare * Math.abs(airK - lineK);
}
