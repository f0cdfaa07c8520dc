import type { UnitSystem } from './display.ts';
import { fromInterchange } from './unit.ts';

/** A change of a pressure that is known within a 95 % interval [Pa]. */
export interface UncertainChange {
  readonly pa: number;
  readonly lowPa: number;
  readonly highPa: number;
}

const units = { ip: { name: 'psia', text: 'psi' }, si: { name: 'bar', text: 'bar' } } as const;

/**
 * A change of a pressure with its interval, all three to the decimals that two figures of half the interval have: psi, or
 * bar.
 *
 * @example uncertainChangeText({ pa: 33647, lowPa: 14893, highPa: 52400 }, 'ip') // '4.9 psi (2.2 to 7.6 psi, 95 %)'
 */
export function uncertainChangeText(change: UncertainChange, system: UnitSystem): string {
  const { likely, low, high, unit } = uncertainChangeFigures(change, system);
  return `${likely} ${unit} (${low} to ${high} ${unit}, 95 %)`;
}

/**
 * The figures of such a change, for other words around them.
 *
 * @example uncertainChangeFigures({ pa: 33647, lowPa: 14893, highPa: 52400 }, 'ip').likely // '4.9'
 */
export function uncertainChangeFigures({ pa, lowPa, highPa }: UncertainChange, system: UnitSystem) {
  const { name, text } = units[system];
  const half = fromInterchange(Math.abs(highPa - lowPa) / 2, name);
  const decimals = half > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(half)))) : 3;
  const [likely = '', low = '', high = ''] = [pa, lowPa, highPa].map((change) => {
    const digits = fromInterchange(Math.abs(change), name).toFixed(decimals);
    return change < 0 && Number(digits) !== 0 ? `−${digits}` : digits;
  });
  return { likely, low, high, unit: text };
}
