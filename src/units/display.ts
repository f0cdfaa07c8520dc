import { fromInterchange } from './unit.ts';

/** Which units people read. */
export type UnitSystem = 'ip' | 'si';

/**
 * A vacuum pressure as people say it: whole microns, or pascals with three significant figures.
 *
 * @param pressurePa absolute pressure [Pa]
 * @example vacuumText(66.661184, 'ip') // '500 µm'
 */
export function vacuumText(pressurePa: number, system: UnitSystem): string {
  if (pressurePa === Number.POSITIVE_INFINITY) return 'over range';
  if (system === 'si') return `${significant(pressurePa)} Pa`;
  const micron = fromInterchange(pressurePa, 'micron');
  return `${grouped(Math.abs(micron) < 100 ? significant(micron) : Math.round(micron).toString())} µm`;
}

/**
 * A refrigerant mass as people say it: ounces below a pound, pounds and ounces above; grams below a kilogram.
 *
 * @param massKg mass [kg], may be negative
 * @example massText(0.1, 'ip') // '3.5 oz'
 */
export function massText(massKg: number, system: UnitSystem): string {
  const sign = massKg < 0 ? '−' : '';
  const size = Math.abs(massKg);
  if (system === 'si') return size < 1 ? `${sign}${Math.round(size * 1000)} g` : `${sign}${size.toFixed(3)} kg`;
  const tenths = Math.round(fromInterchange(size, 'oz') * 10);
  const pounds = Math.floor(tenths / 160);
  const ounces = `${((tenths % 160) / 10).toFixed(1)} oz`;
  return pounds === 0 ? `${sign}${ounces}` : `${sign}${pounds} lb ${ounces}`;
}

/**
 * A duration as people say it.
 *
 * @param durationS duration [s]
 * @example durationText(905) // '15 min 5 s'
 */
export function durationText(durationS: number): string {
  const whole = Math.round(durationS);
  if (whole < 120) return `${whole} s`;
  const minutes = Math.floor(whole / 60);
  const rest = whole % 60;
  if (minutes >= 120) return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`;
}

/** Three significant figures, never in exponent form. */
function significant(value: number): string {
  if (value === 0) return '0';
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return value.toFixed(Math.min(digits, 6));
}

function grouped(digits: string): string {
  return digits.replace(/\B(?=(\d{3})+(?!\d))/g, '\u00a0');
}
