import { DryholdError } from '../errors.ts';
import { roundedUp } from './rounded-up.ts';
import { fromInterchange, toInterchange, type UnitName } from './unit.ts';

/**
 * A pressure counted from the atmosphere around the gauge: above zero higher, below zero a vacuum.
 *
 * An object, so that it cannot pass for an absolute pressure, which is a number.
 */
export interface GaugePressure {
  readonly gaugePa: number;
  /** The unit that it was read in, for messages. */
  readonly unit?: GaugeUnitName;
}

/** Each gauge unit by the absolute unit of its size, and which way it counts from the atmosphere. */
const gaugeUnits = {
  psig: { size: 'psia', sign: 1 },
  barg: { size: 'bar', sign: 1 },
  kPag: { size: 'kPa', sign: 1 },
  /** Inches of mercury of vacuum: 0 is the atmosphere, and more is lower. */
  inHgv: { size: 'inHga', sign: -1 },
} as const satisfies Record<string, { size: UnitName; sign: 1 | -1 }>;

export type GaugeUnitName = keyof typeof gaugeUnits;

export const gaugeUnitNames = Object.keys(gaugeUnits) as GaugeUnitName[];

/** Whether a text names a gauge unit. */
export function isGaugeUnitName(name: string): name is GaugeUnitName {
  return Object.hasOwn(gaugeUnits, name);
}

/**
 * A gauge's reading as a gauge pressure.
 *
 * @param value reading in `unit`
 * @example toGauge(100, 'psig') // { gaugePa: 689475.7, unit: 'psig' }
 */
export function toGauge(value: number, unit: GaugeUnitName): GaugePressure {
  const { size, sign } = gaugeUnits[unit];
  return { gaugePa: sign * toInterchange(value, size), unit };
}

/**
 * The inverse of `toGauge`.
 *
 * @returns reading in `unit`; of inHgv below zero where the pressure is above the atmosphere
 * @example fromGauge({ gaugePa: -50000 }, 'inHgv') // 14.76499
 */
export function fromGauge(gauge: GaugePressure, unit: GaugeUnitName): number {
  const { size, sign } = gaugeUnits[unit];
  return sign * fromInterchange(gauge.gaugePa, size);
}

/**
 * The absolute pressure that a gauge shows under an atmosphere.
 *
 * @param atmospherePa the site's atmosphere [Pa], absolute: from its barometer, or its altitude
 * @returns pressure [Pa], absolute, not below 0
 * @throws DryholdError `out-of-range` below a perfect vacuum, in the unit of `gauge`, or where the atmosphere is not above 0
 * @example absolutePressure({ gaugePa: 100000 }, 101325) // 201325
 */
export function absolutePressure(gauge: GaugePressure, atmospherePa: number): number {
  requireAtmosphere(atmospherePa);
  const pressurePa = gauge.gaugePa + atmospherePa;
  if (pressurePa >= 0) return pressurePa;
  throw belowVacuum(gauge, atmospherePa);
}

/**
 * The inverse of `absolutePressure`.
 *
 * @param pressurePa pressure [Pa], absolute, not below 0
 * @throws DryholdError `out-of-range`
 * @example gaugePressure(201325, 101325) // { gaugePa: 100000 }
 */
export function gaugePressure(pressurePa: number, atmospherePa: number): GaugePressure {
  requireAtmosphere(atmospherePa);
  if (pressurePa >= 0) return { gaugePa: pressurePa - atmospherePa };
  throw new DryholdError('out-of-range', { quantity: 'pressure [Pa]', bound: 'at least 0', received: pressurePa });
}

function belowVacuum(gauge: GaugePressure, atmospherePa: number): DryholdError {
  const { unit } = gauge;
  const inUnit = (gaugePa: number) =>
    unit === undefined ? gaugePa : Number(fromGauge({ gaugePa }, unit).toPrecision(12));
  const limit = inUnit(-atmospherePa);
  const bound = limit < 0 ? `at least ${roundedUp(limit)}` : `at most ${-roundedUp(-limit)}`;
  return new DryholdError('out-of-range', {
    quantity: `gauge pressure [${unit ?? 'Pa'}]`,
    bound: `${bound} (a perfect vacuum under this atmosphere)`,
    received: inUnit(gauge.gaugePa),
  });
}

function requireAtmosphere(atmospherePa: number): void {
  if (atmospherePa > 0 && Number.isFinite(atmospherePa)) return;
  throw new DryholdError('out-of-range', { quantity: 'atmosphere [Pa]', bound: 'above 0', received: atmospherePa });
}
