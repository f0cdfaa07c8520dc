import { copperTube } from '../../physics/copper-tube.ts';
import { lineMass } from '../../physics/line-mass.ts';
import { knownSaturation } from '../known-saturation.ts';

/** Liquid leaves a condenser in the heat at some 100 °F [K]: as published rows have it. */
const liquidK = 310.928;
/** Suction vapour comes off an evaporator at some 45 °F [K] … */
const suctionSaturationK = 280.372;
/** … and some 10 °F of superheat make it lighter by this ratio. Of R-410A: 36.9 kg/m³; the same for others is common practice. */
const superheatedRatio = 0.96;

/** A line as far as its adder rests on it. */
export interface AdderLine {
  readonly liquid_line_od_mm?: number | undefined;
  readonly suction_line_od_mm?: number | undefined;
}

/** What a metre of line holds. */
export interface ComputedAdder {
  /** The liquid line full of liquid [kg/m]: what a printed adder is held against. */
  readonly liquidKgPerM: number;
  /** That and the vapour in the suction line, where its size is known [kg/m]: what stands in for a printed adder. */
  readonly lineKgPerM: number;
}

/**
 * The adder of a line from its bores and the densities of what is in it.
 *
 * Geometry: tubes of the ASTM B280 table; saturated liquid at 100 °F in the liquid line, vapour at 45 °F with 10 °F of
 * superheat in the suction line.
 *
 * @returns undefined where refrigerant or tube is not known
 * @example computedAdder('R-410A', { liquid_line_od_mm: 9.52 })?.liquidKgPerM // 0.0485, 0.521 oz/ft
 */
export function computedAdder(refrigerant: string | undefined, line: AdderLine): ComputedAdder | undefined {
  const curve = knownSaturation(refrigerant);
  const liquid = line.liquid_line_od_mm === undefined ? undefined : copperTube(line.liquid_line_od_mm / 1000);
  if (curve === undefined || liquid === undefined) return undefined;
  const suction = line.suction_line_od_mm === undefined ? undefined : copperTube(line.suction_line_od_mm / 1000);
  const liquidKgPerM = lineMass(liquid.innerVolumeM3PerM, curve.liquidKgPerM3(liquidK));
  const vapour = superheatedRatio * curve.vapourKgPerM3(suctionSaturationK);
  return {
    liquidKgPerM,
    lineKgPerM: liquidKgPerM + (suction === undefined ? 0 : lineMass(suction.innerVolumeM3PerM, vapour)),
  };
}

/** How many times another size's adder is this one's: by bore area. NaN where a tube is not in the table. */
export function sizeRatio(otherOdMm: number, odMm: number): number {
  const volume = (mm: number) => copperTube(mm / 1000)?.innerVolumeM3PerM ?? Number.NaN;
  return volume(otherOdMm) / volume(odMm);
}

/** How many times another refrigerant's adder is this one's: by the density of the liquid. NaN where one is not known. */
export function refrigerantRatio(other: string, refrigerant: string | undefined): number {
  const density = (name: string | undefined) => knownSaturation(name)?.liquidKgPerM3(liquidK) ?? Number.NaN;
  return density(other) / density(refrigerant);
}
