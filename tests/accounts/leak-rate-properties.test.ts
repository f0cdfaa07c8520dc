import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Addition } from '../../src/accounts/additions.ts';
import type { LeakEvent } from '../../src/accounts/appliance-leaks.ts';
import { added, ratesOf } from './appliance-drafts.ts';

const kg = fc.integer({ min: 1, max: 4000 }).map((grams) => grams / 1000);
const days = fc.uniqueArray(fc.integer({ min: 1, max: 1500 }), { minLength: 1, maxLength: 8 });

/** Additions on days of their own, for leaks that come and go. */
const spread = days.chain((on) =>
  fc.tuple(
    ...on.map((day) =>
      fc.tuple(kg, fc.constantFrom(null, null, 'L', 'M')).map(([mass, leak]) => added(day, mass, leak)),
    ),
  ),
);

const near = (one: number, other: number) => Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(other));

describe('leak rates', () => {
  test('do not change where an addition is made in two parts for the same leak', () => {
    let earlier = 0;
    fc.assert(
      fc.property(
        days,
        fc.nat(),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.nat(),
        kg,
        (on, which, share, back, mass) => {
          const sorted = on.toSorted((a, b) => a - b);
          const at = which % sorted.length;
          const day = sorted[at];
          const previous = at === 0 ? 0 : sorted[at - 1];
          // On the same day or any earlier one after the addition before, within what the rolling method looks back.
          const first = Math.max(day - (back % (day - previous)), day - 365);
          earlier += Number(first < day);
          const others = sorted.filter((one) => one !== day).map((one) => added(one, 1));
          const whole = ratesOf([...others, added(day, mass, 'split')]);
          const parts = [added(first, share * mass, 'split'), added(day, (1 - share) * mass, 'split')];
          const split = ratesOf([...others, ...parts]);
          expect(split).toHaveLength(whole.length);
          for (const [index, event] of whole.entries()) {
            expect(near(split[index].annualising, event.annualising)).toBe(true);
            expect(split[index].days).toBe(event.days);
            if (event.addition.lastDay <= day || event.addition.lastDay - 365 > day)
              expect(near(split[index].rolling, event.rolling)).toBe(true);
          }
        },
      ),
      { seed: 4, numRuns: 400 },
    );
    expect(earlier).toBeGreaterThan(100);
  });

  test('do not change with the order of the rows', () => {
    const shape = ({ addition, ...rest }: LeakEvent) => ({
      ...rest,
      day: addition.day,
      lastDay: addition.lastDay,
      leakId: addition.leakId,
      kg: Math.round(addition.kg * 1e6),
      annualising: Number(rest.annualising.toPrecision(9)),
      rolling: Number(rest.rolling.toPrecision(9)),
      rollingKg: Number(rest.rollingKg.toPrecision(9)),
    });
    fc.assert(
      fc.property(
        spread.chain((additions) =>
          fc.tuple(fc.constant(additions), fc.shuffledSubarray(additions, { minLength: additions.length })),
        ),
        fc.array(fc.integer({ min: 0, max: 1500 }), { maxLength: 2 }),
        ([additions, shuffled], verifiedDays) => {
          const options = { verifiedDays, trigger: 0.1 };
          expect(ratesOf(shuffled, options).map(shape)).toEqual(ratesOf(additions, options).map(shape));
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });

  test('go with the mass, and against the charge', () => {
    fc.assert(
      fc.property(spread, fc.double({ min: 0.1, max: 10, noNaN: true }), (additions, times) => {
        const rates = ratesOf(additions);
        const scaled = ratesOf(additions.map((one): Addition => ({ ...one, kg: times * one.kg })));
        const larger = ratesOf(additions, { fullChargeKg: 100 * times });
        for (const [index, { annualising, rolling }] of rates.entries()) {
          expect(near(scaled[index].annualising, times * annualising)).toBe(true);
          expect(near(scaled[index].rolling, times * rolling)).toBe(true);
          expect(near(larger[index].annualising * times, annualising)).toBe(true);
          expect(near(larger[index].rolling * times, rolling)).toBe(true);
        }
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  test('count every mass of a leak once', () => {
    fc.assert(
      fc.property(spread, (additions) => {
        const events = ratesOf(additions);
        const told = events.reduce((sum, { addition }) => sum + addition.kg, 0);
        expect(
          near(
            told,
            additions.reduce((sum, one) => sum + one.kg, 0),
          ),
        ).toBe(true);
        expect(events.flatMap(({ addition }) => addition.sources)).toHaveLength(additions.length);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
