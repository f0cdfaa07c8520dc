import fc from 'fast-check';
import { expect, test } from 'vitest';
import { coarseRows } from '../../src/pages/coarse-rows.ts';
import { timesBetween } from '../../src/pages/times-between.ts';

const month = fc.oneof(
  fc.constant(''),
  fc
    .record({ year: fc.integer({ min: 2019, max: 2023 }), at: fc.integer({ min: 1, max: 12 }) })
    .map(({ year, at }) => `${year}-${String(at).padStart(2, '0')}`),
);
const row = fc.record({
  month,
  crew: fc.constantFrom('', 'a', 'b'),
  jobs: fc.nat(9),
  expected: fc.integer({ min: 0, max: 64 }).map((part) => part / 8),
});
const sums = ['jobs', 'expected'] as const;

/** The first month of the quarter or year, by the calendar. */
const firstMonth = (text: string, grain: 'quarter' | 'year') => {
  if (text === '') return '';
  const [year, at] = text.split('-').map(Number);
  return grain === 'year' ? `${year}-01` : `${year}-${['01', '04', '07', '10'][Math.ceil(at / 3) - 1]}`;
};

test('joined rows add up to the same, for each crew and each time', () => {
  fc.assert(
    fc.property(fc.array(row, { maxLength: 120 }), fc.integer({ min: 1, max: 60 }), (rows, most) => {
      const frozen = rows.map((one) => Object.freeze({ ...one }));
      const { rows: joined, grain } = coarseRows(frozen, sums, most);
      if (rows.length <= most) expect([grain, joined]).toEqual(['month', rows]);
      const total = (some: readonly (typeof rows)[number][], of: (one: (typeof rows)[number]) => string) => {
        const all = new Map<string, [number, number]>();
        for (const one of some) {
          const [jobs, expected] = all.get(of(one)) ?? [0, 0];
          all.set(of(one), [jobs + one.jobs, expected + one.expected]);
        }
        return all;
      };
      const key = ({ month: at, crew }: (typeof rows)[number]) =>
        `${grain === 'month' ? at : firstMonth(at, grain)} ${crew}`;
      expect(total(joined, ({ month: at, crew }) => `${at} ${crew}`)).toEqual(total(rows, key));
      // Each stands once, and no coarser than it must.
      if (grain !== 'month') expect(new Set(joined.map(key)).size).toBe(joined.length);
      const quarters = new Set(rows.map(({ month: at, crew }) => `${firstMonth(at, 'quarter')} ${crew}`));
      if (grain === 'year') expect(quarters.size).toBeGreaterThan(most);
      if (grain === 'quarter') expect(joined.length).toBeLessThanOrEqual(most);
    }),
  );
});

test('fields that do not add up keep rows apart', () => {
  const { rows } = coarseRows(
    [
      { month: '2026-01', skill: 'a', jobs: 1 },
      { month: '2026-02', skill: 'b', jobs: 2 },
      { month: '2026-03', skill: 'a', jobs: 4 },
    ],
    ['jobs'],
    2,
  );
  expect(rows).toEqual([
    { month: '2026-01', skill: 'a', jobs: 5 },
    { month: '2026-01', skill: 'b', jobs: 2 },
  ]);
});

test('between the first and the last every month, quarter or year stands, once and in order', () => {
  expect(timesBetween(['2026-02', '2025-11'], 'month')).toEqual(['2025-11', '2025-12', '2026-01', '2026-02']);
  expect(timesBetween(['2025-10', '2026-07', '2026-01'], 'quarter')).toEqual([
    '2025-10',
    '2026-01',
    '2026-04',
    '2026-07',
  ]);
  expect(timesBetween(['2024-01', '2026-01'], 'year')).toEqual(['2024-01', '2025-01', '2026-01']);
  for (const grain of ['month', 'quarter', 'year'] as const)
    expect(timesBetween(['2026-01'], grain)).toEqual(['2026-01']);
});
