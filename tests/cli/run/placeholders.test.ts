import { expect, test } from 'vitest';
import { filledIn, unknownPlaceholder } from '../../../src/cli/run/placeholders.ts';

test.each([
  ['2026-12-01', '2026-12-01 2026-W49 2026-12 2026-11 2026-11-01 2026-11-30'],
  // A week belongs to the year of its Thursday.
  ['2027-01-01', '2027-01-01 2026-W53 2027-01 2026-12 2026-12-01 2026-12-31'],
  ['2024-12-30', '2024-12-30 2025-W01 2024-12 2024-11 2024-11-01 2024-11-30'],
  ['2024-03-31', '2024-03-31 2024-W13 2024-03 2024-02 2024-02-01 2024-02-29'],
])('on %s they are %s', (day, expected) => {
  expect(filledIn('{today} {week} {month} {last-month} {last-month-start} {last-month-end}', day)).toBe(expected);
});

test('braces of a glob stay, and what is no placeholder is told', () => {
  expect(filledIn('logs/{today}/*.{csv,txt}', '2026-12-01')).toBe('logs/2026-12-01/*.{csv,txt}');
  expect(unknownPlaceholder('logs/{today}/*.{csv,txt}')).toBeUndefined();
  expect(unknownPlaceholder('{week}/{Week}')).toBe('{Week}');
  expect(unknownPlaceholder('{toString}')).toBe('{toString}');
});
