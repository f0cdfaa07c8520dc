import { DryholdError } from '../errors.ts';
import {
  parseRefrigerant,
  type Refrigerant,
  saturationAtPressure,
  saturationAtTemperature,
  waterLiquidDensity,
  waterSaturationTemperature,
  waterVapourDensity,
  waterVapourPressure,
} from '../physics/index.ts';
import { type ReferenceKey, references } from '../references.ts';

/** Saturation at one place of the curve; null where a figure is not known. */
export interface SaturationPoint {
  readonly bubbleK: number;
  readonly dewK: number;
  readonly bubblePa: number;
  readonly dewPa: number;
  readonly liquidKgPerM3: number | null;
  readonly vapourKgPerM3: number | null;
}

/** Something that boils: a refrigerant or water. */
export interface SaturationSource {
  readonly designation: string;
  /** What its figures mean, and what they come from. */
  readonly about: string;
  readonly basis: string;
  /** What else to know about them. */
  readonly remark?: string;
  /** Where its curve begins (triple point, or the warmest of the components') and ends (near or at the critical point) [K]. */
  readonly ends: () => { readonly lowestK: number; readonly highestK: number; readonly highestPa: number };
  /** Undefined where there is no saturation. */
  readonly atTemperature: (temperatureK: number) => SaturationPoint | undefined;
  readonly atPressure: (pressurePa: number) => SaturationPoint | undefined;
}

/**
 * What a person names: a refrigerant, a blend by its composition, or water.
 *
 * @throws DryholdError as `parseRefrigerant`
 */
export function saturationSource(text: string): SaturationSource {
  return /^(water|r-?718)$/i.test(text.trim()) ? water : refrigerantSource(parseRefrigerant(text));
}

function refrigerantSource(refrigerant: Refrigerant): SaturationSource {
  const { designation, components, estimatedPairs } = refrigerant;
  return {
    designation,
    about:
      'Bubble point: the liquid begins to boil; subcooling counts from it.\nDew point: the vapour begins to condense; superheat counts from it.',
    basis: `From the equations of state of ${components.map((fluid) => `${fluid.designation} (${authors(fluid.reference)})`).join(', ')}.`,
    ...(estimatedPairs.length > 0 && {
      remark: `Nobody published how ${estimatedPairs.join(', ')} mix: the figures are estimates of unknown accuracy.`,
    }),
    ends: () => refrigerantEnds(refrigerant),
    atTemperature: (temperatureK) => {
      const found = within(() => saturationAtTemperature(refrigerant, temperatureK));
      return found?.converged ? { ...found, bubbleK: temperatureK, dewK: temperatureK } : undefined;
    },
    atPressure: (pressurePa) => {
      const found = within(() => saturationAtPressure(refrigerant, pressurePa));
      return found?.converged ? { ...found, bubblePa: pressurePa, dewPa: pressurePa } : undefined;
    },
  };
}

const water: SaturationSource = {
  designation: 'water',
  about: 'Free water, or ice below 32 °F, boils off at this pressure and temperature.',
  basis: 'From IAPWS R14-08 (ice) and IAPWS SR1-86 (liquid and vapour).',
  ends: () => ({ lowestK: 50, highestK: 647.096, highestPa: 22.064e6 }),
  atTemperature: (temperatureK) => within(() => waterPoint(temperatureK, waterVapourPressure(temperatureK))),
  atPressure: (pressurePa) => within(() => waterPoint(waterSaturationTemperature(pressurePa), pressurePa)),
};

function waterPoint(temperatureK: number, pressurePa: number): SaturationPoint {
  const ice = temperatureK < 273.15;
  return {
    bubbleK: temperatureK,
    dewK: temperatureK,
    bubblePa: pressurePa,
    dewPa: pressurePa,
    liquidKgPerM3: ice ? null : waterLiquidDensity(temperatureK),
    vapourKgPerM3: ice ? null : waterVapourDensity(temperatureK),
  };
}

/** The curve's ends; of a blend the last point that the solver finds. */
function refrigerantEnds(refrigerant: Refrigerant): ReturnType<SaturationSource['ends']> {
  const { components, lowestK } = refrigerant;
  const highestK = Math.max(...components.map((fluid) => fluid.criticalK));
  if (components.length === 1) return { lowestK, highestK, highestPa: components[0].criticalPa };
  const end = saturationAtTemperature(refrigerant, highestK);
  return {
    lowestK,
    highestK: end.converged ? highestK : end.lastK,
    highestPa: end.converged ? end.bubblePa : end.lastPa,
  };
}

/** What was computed, or undefined where it was asked for outside the equations' limits. */
function within<Result>(compute: () => Result): Result | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof DryholdError && error.code === 'out-of-range') return undefined;
    throw error;
  }
}

/** Authors and year of a cited work. */
function authors(key: ReferenceKey): string {
  return /^.*?\d{4}/.exec(references[key].citation)?.[0] ?? key;
}
