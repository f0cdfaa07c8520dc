import { DryholdError } from '../errors.ts';

/** What a unit measures. Gauge pressure needs the site's atmosphere and is not a plain unit: see `gauge-pressure.ts`. */
export type Dimension =
  | 'pressure'
  | 'temperature'
  | 'mass'
  | 'length'
  | 'bore'
  | 'time'
  | 'volume'
  | 'power'
  | 'flow'
  | 'none';

interface Unit {
  readonly dimension: Dimension;
  /** Interchange value = value × factor + offset. */
  readonly factor: number;
  readonly offset?: number;
}

/**
 * Every unit by the name people write, to the interchange unit of its dimension: Pa (absolute), °C, kg, m (line
 * lengths), mm (bores and diameters), s, L, W, L/s. A pressure unit with nothing said is absolute.
 *
 * Source: exact by definition (international yard and pound, SI Brochure); 1 µm of mercury = 0.133322368 Pa at 0 °C;
 * `nist-sp-811`, the conventional inch of mercury (25.4 mm of 13595.1 kg/m³ under 9.80665 m/s²).
 */
const units = {
  Pa: { dimension: 'pressure', factor: 1 },
  hPa: { dimension: 'pressure', factor: 100 },
  kPa: { dimension: 'pressure', factor: 1e3 },
  MPa: { dimension: 'pressure', factor: 1e6 },
  mbar: { dimension: 'pressure', factor: 100 },
  bar: { dimension: 'pressure', factor: 1e5 },
  micron: { dimension: 'pressure', factor: 0.133322368 },
  mTorr: { dimension: 'pressure', factor: 0.133322368 },
  Torr: { dimension: 'pressure', factor: 133.322368 },
  psia: { dimension: 'pressure', factor: 6894.757293168 },
  inHga: { dimension: 'pressure', factor: 3386.388640341 },
  C: { dimension: 'temperature', factor: 1 },
  K: { dimension: 'temperature', factor: 1, offset: -273.15 },
  F: { dimension: 'temperature', factor: 5 / 9, offset: -160 / 9 },
  kg: { dimension: 'mass', factor: 1 },
  g: { dimension: 'mass', factor: 1e-3 },
  lb: { dimension: 'mass', factor: 0.45359237 },
  oz: { dimension: 'mass', factor: 0.028349523125 },
  m: { dimension: 'length', factor: 1 },
  ft: { dimension: 'length', factor: 0.3048 },
  mm: { dimension: 'bore', factor: 1 },
  in: { dimension: 'bore', factor: 25.4 },
  s: { dimension: 'time', factor: 1 },
  ms: { dimension: 'time', factor: 1e-3 },
  min: { dimension: 'time', factor: 60 },
  h: { dimension: 'time', factor: 3600 },
  L: { dimension: 'volume', factor: 1 },
  ft3: { dimension: 'volume', factor: 28.316846592 },
  W: { dimension: 'power', factor: 1 },
  kW: { dimension: 'power', factor: 1e3 },
  'L/s': { dimension: 'flow', factor: 1 },
  cfm: { dimension: 'flow', factor: 0.4719474432 },
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof units;

export const unitNames = Object.keys(units) as UnitName[];

/** Whether a text names a unit. */
export function isUnitName(name: string): name is UnitName {
  return Object.hasOwn(units, name);
}

/** What a unit measures. */
export function dimensionOf(unit: UnitName): Dimension {
  return units[unit].dimension;
}

/**
 * A value in the interchange unit of its dimension.
 *
 * @param value number in `unit`
 * @param unit a unit's name
 * @returns Pa, °C, kg, m, mm, s, L, W or L/s, by dimension
 * @throws DryholdError `unknown-unit`
 * @example toInterchange(500, 'micron') // 66.661184
 */
export function toInterchange(value: number, unit: UnitName): number {
  const { factor, offset = 0 } = unitOf(unit);
  return value * factor + offset;
}

/**
 * The inverse of `toInterchange`.
 *
 * @example fromInterchange(66.661184, 'micron') // 500
 */
export function fromInterchange(value: number, unit: UnitName): number {
  const { factor, offset = 0 } = unitOf(unit);
  return (value - offset) / factor;
}

function unitOf(name: UnitName): Unit {
  if (!isUnitName(name)) throw new DryholdError('unknown-unit', { unit: name, known: unitNames.join(', ') });
  return units[name];
}
