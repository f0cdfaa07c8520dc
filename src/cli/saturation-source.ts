import { DryholdError } from '../errors.ts';
import {
  type NotConverged,
  parseRefrigerant,
  type Refrigerant,
  saturationAtPressure,
  saturationAtTemperature,
  waterLiquidDensity,
  waterSaturationTemperature,
  waterVapourDensity,
  waterVapourPressure,
} from '../physics/index.ts';
import { water } from '../physics/water.ts';
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

/** Where the curve of a source begins and ends; NaN where that is not known. */
export interface SaturationEnds {
  readonly lowestK: number;
  readonly lowestPa: number;
  readonly highestK: number;
  readonly highestPa: number;
}

/** Something that boils: a refrigerant or water. */
export interface SaturationSource {
  readonly designation: string;
  /** Sentences: what its figures mean, how good they are, what they come from. */
  readonly about: readonly string[];
  /** What no figure may stand without. */
  readonly caution?: string;
  /** Pairs of components whose interaction is assumed. */
  readonly estimatedPairs: readonly string[];
  readonly ends: () => SaturationEnds;
  /** Undefined where no saturation is found; `two-liquids` where the liquid would part there. */
  readonly atTemperature: (temperatureK: number) => SaturationPoint | 'two-liquids' | undefined;
  readonly atPressure: (pressurePa: number) => SaturationPoint | 'two-liquids' | undefined;
}

/**
 * What a person names: a refrigerant, a blend by its composition, or water.
 *
 * @throws DryholdError as `parseRefrigerant`
 */
export function saturationSource(text: string): SaturationSource {
  return /^(water|r-?718|h2o)$/i.test(text.trim()) ? waterSource : refrigerantSource(parseRefrigerant(text));
}

function refrigerantSource(refrigerant: Refrigerant): SaturationSource {
  const { designation, components, estimatedPairs } = refrigerant;
  const papers = components.map((fluid) => `${fluid.designation} (${authors(fluid.reference)})`).join(', ');
  const estimated = estimatedPairs.length > 0;
  let ends: SaturationEnds | undefined;
  return {
    designation,
    about: [
      'Superheat is the suction line’s temperature less the dew point; subcooling is the bubble point less the liquid line’s temperature.',
      ...(estimated ? [] : [goodness(refrigerant)]),
      `From the equations of state of ${papers}.`,
    ],
    ...(estimated && {
      caution: `This program has no data on how ${estimatedPairs.join(', ')} mix: pressures may be off by tens of per cent. Do not charge or judge by them.`,
    }),
    estimatedPairs,
    ends: () => (ends ??= refrigerantEnds(refrigerant)),
    atTemperature: (temperatureK) => {
      const found = within(() => saturationAtTemperature(refrigerant, temperatureK));
      return found?.converged ? { ...found, bubbleK: temperatureK, dewK: temperatureK } : parting(found);
    },
    atPressure: (pressurePa) => {
      const found = within(() => saturationAtPressure(refrigerant, pressurePa));
      return found?.converged ? { ...found, bubblePa: pressurePa, dewPa: pressurePa } : parting(found);
    },
  };
}

function parting(found: NotConverged | undefined): 'two-liquids' | undefined {
  return found?.reason === 'two-liquids' ? found.reason : undefined;
}

/** How good the equations are, by their papers, from memory: see `Refrigerant`. */
function goodness({ components, pairs }: Refrigerant): string {
  if (components.length === 1) return 'Good to some 0.1 % of the absolute pressure; a gauge is the larger doubt.';
  if (pairs.some(({ factor }) => factor === 0)) {
    return 'How some of its fluids mix is known less well: perhaps a few per cent of the absolute pressure, no figure is known.';
  }
  return 'Good to between 0.5 and 1 % of the absolute pressure, as blends are known; a gauge is often the larger doubt.';
}

const waterSource: SaturationSource = {
  designation: 'water',
  about: [
    'Free water, or ice in the cold, boils off there.',
    'From IAPWS R14-08 (ice) and SR1-86 (liquid and vapour).',
  ],
  estimatedPairs: [],
  ends: () => ({
    lowestK: water.lowestIceK,
    lowestPa: waterVapourPressure(water.lowestIceK),
    highestK: water.criticalK,
    highestPa: water.criticalPa,
  }),
  atTemperature: (temperatureK) => within(() => waterPoint(temperatureK, waterVapourPressure(temperatureK))),
  atPressure: (pressurePa) => within(() => waterPoint(waterSaturationTemperature(pressurePa), pressurePa)),
};

function waterPoint(temperatureK: number, pressurePa: number): SaturationPoint {
  const ice = temperatureK < water.lowestLiquidK;
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
function refrigerantEnds(refrigerant: Refrigerant): SaturationEnds {
  const { components, lowestK } = refrigerant;
  const [fluid] = components;
  const coldest = saturationAtTemperature(refrigerant, lowestK);
  const lowestPa = coldest.converged ? coldest.bubblePa : Number.NaN;
  if (components.length === 1) {
    return { lowestK, lowestPa, highestK: fluid.criticalK, highestPa: fluid.criticalPa };
  }
  const warmestK = Math.max(...components.map(({ criticalK }) => criticalK));
  const end = saturationAtTemperature(refrigerant, warmestK);
  return end.converged
    ? { lowestK, lowestPa, highestK: warmestK, highestPa: end.bubblePa }
    : { lowestK, lowestPa, highestK: end.lastK, highestPa: end.lastPa };
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
