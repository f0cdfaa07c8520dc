import type { UnitSystem } from './display.ts';
import { type UncertainChange, uncertainChangeFigures, uncertainChangeText } from './uncertain-change-text.ts';

/**
 * A drop of a pressure that is likelier a rise, as that rise, so that nobody reads a drop of minus so much.
 *
 * @param drop its likeliest is below 0
 * @returns undefined where that rounds to 0, or is not below it
 * @example uncertainRiseText({ pa: -55158, lowPa: -137895, highPa: 27579 }, 'ip') // '8 psi (95 %: between a rise of 20 psi and a drop of 4 psi)'
 */
export function uncertainRiseText({ pa, lowPa, highPa }: UncertainChange, system: UnitSystem): string | undefined {
  const rise = { pa: -pa, lowPa: -highPa, highPa: -lowPa };
  const { likely, low, high, unit } = uncertainChangeFigures(rise, system);
  if (!(pa < 0) || Number(likely) === 0) return undefined;
  if (!low.startsWith('−')) return uncertainChangeText(rise, system);
  return `${likely} ${unit} (95 %: between a rise of ${high} ${unit} and a drop of ${low.slice(1)} ${unit})`;
}
