import type { CylinderRemark } from '../accounts/cylinder-account.ts';
import { dateOf } from '../numerics/calendar-day.ts';
import type { CylinderGap } from '../accounts/cylinder-walk.ts';
import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import { dayText } from './day-text.ts';

const slips = {
  'digits-swapped': 'two digits swapped',
  'digit-wrong': 'one digit wrong',
  'point-moved': 'the decimal point moved',
} as const;

/** What there is to say of a cylinder, as a sentence, with what to do next. */
export function cylinderRemarkText(remark: CylinderRemark, units: UnitSystem): string {
  const mass = (kg: number) => bookedMassText(kg, units);
  switch (remark.id) {
    case 'missing':
    case 'too-much':
      return gapText(remark, units);
    case 'mistyped': {
      const { weighing, which, kg, by } = remark;
      const written = which === 'start' ? weighing.startKg : weighing.endKg;
      const told = by === 'series' ? 'the series of the scale' : 'the figure on the job’s record';
      return `${weighing.weighingId}: the weight ${which === 'start' ? 'before' : 'after'} is mistyped, ${withoutUnit(mass(written))} for ${mass(kg)}, by ${told} and the weighings next to it; counted as ${mass(kg)}.`;
    }
    case 'misplaced': {
      const { weighing, writtenFor } = remark;
      return `${weighing.weighingId} was written for ${writtenFor}; both its weights fit this cylinder and not that one, and it is counted here.`;
    }
    case 'negative':
      return `It would hold ${mass(remark.kg)} on ${dayText(dateOf(remark.day))}: more left it than was in it. Check what was in it when it came, its empty weight, and its weighings.`;
    case 'overfilled':
      return `It held ${mass(remark.kg)} on ${dayText(dateOf(remark.day))}, over the ${mass(remark.capacityKg)} that it may. A cylinder filled over 80% of its liquid volume can burst when it warms: where it still holds as much, take some out before it is moved.`;
    default:
      return `${remark.weighing.weighingId} says ${remark.refrigerant}, which is not what the cylinder holds by its record.`;
  }
}

function gapText(remark: Extract<CylinderRemark, { id: 'missing' | 'too-much' }>, units: UnitSystem): string {
  const { gap, slip, fits, counterpart } = remark;
  const { sdKg, after, expectedKg, shownKg } = gap;
  const mass = (kg: number) => bookedMassText(kg, units);
  const size = `${withoutUnit(mass(Math.abs(gap.kg)))} ± ${mass(1.96 * sdKg)}`;
  const what = remark.id === 'missing' ? `${size} are missing` : `there are ${size} too much`;
  const shown =
    after === null
      ? `closed with ${mass(shownKg)} where ${mass(expectedKg)} should be left`
      : `${after.weighingId} begins at ${mass(after.startKg)}${Math.abs(after.startKg - shownKg) > 0.001 ? ` (${mass(shownKg)} with the empty cylinder)` : ''} where ${mass(expectedKg)} should show`;
  const typed =
    slip === null
      ? ''
      : ` The weight ${slip.which === 'before' ? 'before' : 'of this one'} may be mistyped: ${slips[slip.how]}.`;
  const apart =
    fits.length === 0
      ? ''
      : ` ${fits.join(' or ')}, kept apart, took as much in those days: put ${fits.length === 1 ? 'its' : 'their'} cylinder and date right.`;
  const other =
    counterpart === null
      ? ''
      : ` As much is ${remark.id === 'missing' ? 'too much in' : 'missing from'} ${counterpart} in the same days: a weighing may have been written for the wrong one.`;
  return `${whenText(gap)} ${what}: ${shown}.${typed}${apart}${other}`;
}

function whenText({ fromDay, day, before }: CylinderGap): string {
  const to = dayText(dateOf(day));
  if (fromDay === null) return `On ${to}`;
  const from = dayText(dateOf(fromDay));
  if (from === to) return `On ${to}`;
  return before === null ? `Between the day it came, ${from}, and ${to}` : `Between ${from} and ${to}`;
}
