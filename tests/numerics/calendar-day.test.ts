import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dateOf, dayOf, monthsLater, yearOf } from '../../src/numerics/calendar-day.ts';

test.each([
  ['1970-01-01', 0],
  ['1969-12-31', -1],
  // 30 years of which 7 have a leap day (1972 … 1996).
  ['2000-01-01', 30 * 365 + 7],
  // 2000, 2004 … 2024 have one, too.
  ['2026-01-01', 56 * 365 + 14],
  ['2024-02-29', 54 * 365 + 13 + 31 + 28],
])('%s is day %i since 1970', (date, day) => {
  expect(dayOf(date)).toBe(day);
  expect(dateOf(day)).toBe(date);
});

test('an instant has the day of its own place', () => {
  expect(dayOf('2026-01-01T23:59:00-08:00')).toBe(dayOf('2026-01-01'));
  expect(dayOf('2026-01-01T00:01:00+09:00')).toBe(dayOf('2026-01-01'));
});

test.each([
  ['2026-01-31', 1, '2026-02-28'],
  ['2024-01-31', 1, '2024-02-29'],
  ['2024-02-29', 12, '2025-02-28'],
  ['2024-02-29', 48, '2028-02-29'],
  ['2026-03-31', 3, '2026-06-30'],
  ['2026-11-30', 3, '2027-02-28'],
  ['2026-12-01', 1, '2027-01-01'],
  ['2026-05-15', 24, '2028-05-15'],
  ['2026-05-15', 0, '2026-05-15'],
])('%s and %i months are %s', (from, months, to) => {
  expect(dateOf(monthsLater(dayOf(from), months))).toBe(to);
});

test.each([
  ['2025-12-31', 2025],
  ['2026-01-01', 2026],
  ['1969-12-31', 1969],
])('%s lies in %i', (date, year) => {
  expect(yearOf(dayOf(date))).toBe(year);
});

test('months go forward, never past the month, and twelve are a year', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 40_000 }), fc.integer({ min: 1, max: 60 }), (day, months) => {
      const later = monthsLater(day, months);
      const monthNumber = (one: number) => Number(dateOf(one).slice(0, 4)) * 12 + Number(dateOf(one).slice(5, 7));
      expect(monthNumber(later) - monthNumber(day)).toBe(months);
      expect(Number(dateOf(later).slice(8))).toBeLessThanOrEqual(Number(dateOf(day).slice(8)));
      expect(yearOf(monthsLater(day, 12)) - yearOf(day)).toBe(1);
    }),
    { seed: 3 },
  );
});
