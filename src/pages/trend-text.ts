import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import type { MonthSignal } from './accounts-data.ts';
import { monthText } from './day-text.ts';
import { groupedCount } from './share-text.ts';

/** What stands out in a month, as a sentence. */
export function signalText({ month, id, value, limit }: MonthSignal, units: UnitSystem): string {
  const mass = (kg: number) => bookedMassText(Math.abs(kg), units);
  const side = value > 0 ? 'missing' : 'too much';
  switch (id) {
    case 'unexplained':
      return `${monthText(month)}: ${mass(value)} ${side}, beyond the ${withoutUnit(mass(limit))} that scales would explain (one month in a thousand).`;
    case 'unexplained-drift':
      return `${monthText(month)}: over the last months ${mass(value)} a month ${side}, beyond the ${withoutUnit(mass(limit))} that scales would explain.`;
    default:
      return `${monthText(month)}: ${groupedCount(value)} additions for leaks, where the other months had ${limit.toFixed(1)} each; chance alone does that in less than one month in a thousand.`;
  }
}
