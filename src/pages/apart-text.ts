import type { ApartReason } from '../accounts/cylinder-account.ts';
import { bookedMassText, type UnitSystem } from '../units/display.ts';
import type { ApartGroup } from './accounts-data.ts';
import { countText } from './share-text.ts';

/** Why something cannot be accounted; follows on “because”. */
const reasons: Readonly<Record<ApartReason, string>> = {
  'no-cylinder': 'no cylinder is named',
  'unknown-cylinder': 'the cylinder that is named is not on record',
  'not-this-cylinder': 'its weights are not those of the cylinder that is named, which goes on as if it had not been',
  'no-weights': 'the weight before or after is missing',
  'no-direction': 'nothing says whether it went in or out',
  'wrong-way': 'the weights say the other way than the record does',
  'no-day': 'nothing says on which day',
  'before-bought': 'it is dated before the cylinder was bought',
  'after-closing': 'it is dated after the cylinder was closed',
  'no-refrigerant': 'no refrigerant is named',
  'unknown-refrigerant': 'the refrigerant that is named is none that is known here',
  'no-net': 'what was in it when it came is not on record',
  'no-day-bought': 'the day it came is not on record',
  'closing-not-weighed': 'it was closed without being weighed',
  'no-weighing': 'there is a charge on record, and no weighing that says from which cylinder',
  'no-system': 'no system is named',
  'no-full-charge': 'the full charge is not on record',
  'recovered-not-known': 'the system was emptied first, and what was recovered is not on record',
  'unknown-appliance': 'the system is not on record as an appliance',
  'after-retirement': 'it is dated after the appliance was retired',
};

/** Of each reason so many are named. */
const mostNamed = 5;

/** Why something cannot be accounted, as it follows on “because”. */
export function apartReasonText(reason: ApartReason): string {
  return reasons[reason];
}

/**
 * What is kept apart for one reason.
 *
 * @example apartText({ reason: 'no-cylinder', what: 'weighing', count: 2, kg: 1, entries: [] }, 'si') // '2 weighings, 1.000 kg: no cylinder is named'
 */
export function apartText({ reason, what, count, kg, entries }: ApartGroup, units: UnitSystem): string {
  const ids = entries.slice(0, mostNamed).map(({ id }) => id);
  const more = count > ids.length ? ', …' : '';
  const named = ids.length === 0 ? '' : ` (${ids.join(', ')}${more})`;
  const mass = kg > 0 ? `, ${bookedMassText(kg, units)}` : '';
  return `${countText(count, what)}${mass}: ${reasons[reason]}${named}`;
}
