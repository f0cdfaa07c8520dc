import fc from 'fast-check';
import type { RecordedWeighing } from '../../src/accounts/cylinder-record.ts';
import { dateOf, dayOf } from '../../src/numerics/calendar-day.ts';
import { aCylinder, aWeighing, type DraftCylinder } from './cylinder-drafts.ts';

/** The day on which all cylinders are bought. */
export const bought = dayOf('2026-01-05');
/** A mass [kg], by whole grams. */
export const grams = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map((whole) => whole / 1000);

/** What happens next to a cylinder: so much goes out (or in), so much went missing before; and now and then a wrong figure is written. */
const step = fc.record({
  afterDays: fc.integer({ min: 0, max: 20 }),
  outKg: grams(-1500, 2500),
  lostKg: fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: grams(0, 1500) }),
  wrongStartKg: fc.option(grams(-5000, 60_000), { freq: 5 }),
  wrongEndKg: fc.option(grams(-5000, 60_000), { freq: 5 }),
  isZeroed: fc.boolean(),
  otherKg: fc.option(grams(-3000, 3000), { freq: 4 }),
  direction: fc.constantFrom('in', 'in', 'out', null),
  who: fc.constantFrom('A', 'B', null),
  hasDay: fc.constantFrom(true, true, true, false),
});

const draft = fc.record({
  netKg: grams(0, 12_000),
  tareKg: fc.option(grams(3000, 8000), { freq: 4 }),
  closing: fc.constantFrom('open', 'weighed', 'untold'),
  closingKg: grams(0, 12_000),
  refrigerant: fc.constantFrom('R-410A', 'R-32'),
  steps: fc.array(step, { maxLength: 8 }),
});

/** A cylinder with weighings that follow it, but where a wrong figure is written. */
function drafted(made: typeof draft extends fc.Arbitrary<infer Made> ? Made : never, index: number): DraftCylinder {
  const { netKg, tareKg, closing, closingKg, refrigerant } = made;
  let weightKg = netKg + (tareKg ?? 5);
  let day = bought;
  const weighings = made.steps.map((one, at): RecordedWeighing => {
    day += one.afterDays;
    weightKg -= one.lostKg;
    const startKg = one.wrongStartKg ?? (one.isZeroed ? 0 : weightKg);
    const endKg = one.wrongEndKg ?? (one.isZeroed ? -one.outKg : weightKg - one.outKg);
    weightKg -= one.outKg;
    return aWeighing(dateOf(day), startKg, endKg, {
      weighingId: `${index}-${at}`,
      atMs: one.hasDay ? day * 86_400_000 + at : null,
      day: one.hasDay ? day : null,
      direction: one.direction,
      otherKg: one.otherKg,
      technicianId: one.who,
      siteId: one.who,
      crewId: one.who,
    });
  });
  const cylinder = aCylinder({
    cylinderId: `c${index}`,
    netKg,
    tareKg,
    refrigerant,
    writtenRefrigerant: refrigerant,
    closedDay: closing === 'open' ? null : bought + 40,
    closingKg: closing === 'weighed' ? closingKg : null,
  });
  return [cylinder, weighings];
}

/** One to four cylinders with their weighings. */
export const shop = fc.array(draft, { minLength: 1, maxLength: 4 }).map((all) => all.map(drafted));
