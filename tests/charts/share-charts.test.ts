import { describe, expect, test } from 'vitest';
import { flaggedByMonth, type JobCell } from '../../src/charts/flagged-by-month.ts';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { wilsonInterval } from '../../src/numerics/wilson-interval.ts';
import { type Asked, asks, isAsked, jobCells, months, signalsOf, sumOf, technicians } from './drawn-cells.ts';
import { FilteredView } from './filtered-view.ts';

const data = { 'job-cells': jobCells };
const counts = (rows: readonly JobCell[]) => ({ judged: sumOf(rows, 'judged'), flagged: sumOf(rows, 'flagged') });

/** A share with its interval, as the charts should have it. */
function shareOf(rows: readonly JobCell[]) {
  const { judged, flagged } = counts(rows);
  return { judged, flagged, share: flagged / judged, ...wilsonInterval(flagged, judged) };
}

/** What marks show, by a field that names each. */
const shown = (items: readonly { datum: Record<string, unknown> }[] | undefined, name: string) =>
  new Map((items ?? []).map(({ datum }) => [String(datum[name]), datum]));

function expectShares(found: ReadonlyMap<string, Record<string, unknown>>, wanted: Map<string, JobCell[]>) {
  const judged = new Map([...wanted].filter(([, rows]) => counts(rows).judged > 0));
  expect([...found.keys()].sort()).toEqual([...judged.keys()].sort());
  for (const [name, rows] of judged) {
    const { judged: count, flagged, share, low, high } = shareOf(rows);
    expect(found.get(name)).toMatchObject({ judged: count, flagged });
    for (const [key, value] of Object.entries({ share, low, high }))
      expect(found.get(name)?.[key]).toBeCloseTo(value, 12);
  }
}

const named: [string, Asked][] = asks.map((asked) => [JSON.stringify(asked), asked]);

describe.each(named)('asked for %s', (_, asked) => {
  test('each month has the share of a crew’s jobs that pass, and the line that of all that pass', async () => {
    const view = await FilteredView.of(flaggedByMonth({ months, crew: 'Birch' }), data, signalsOf(asked));
    const passing = jobCells.filter((row) => months.includes(row.month) && isAsked(row, asked));
    const own = passing.filter(({ crew }) => crew === 'Birch');
    const [points] = view.items('symbol');
    expectShares(
      shown(points, 'month'),
      Map.groupBy(own, ({ month }) => month),
    );
    const [numbers] = view.items('text');
    expect(numbers?.map(({ text }) => Number(text))).toEqual(points?.map(({ datum }) => datum['judged']));
    const everyone = Map.groupBy(passing, ({ month }) => month);
    const [line] = view.items('line');
    const drawn = [...shown(line, 'month')].filter(([, datum]) => datum['everyoneShare'] !== null);
    const wanted = [...everyone].filter(([, rows]) => counts(rows).judged > 0);
    expect(drawn.map(([month]) => month).sort()).toEqual(wanted.map(([month]) => month).sort());
    for (const [month, datum] of drawn)
      expect(datum['everyoneShare']).toBeCloseTo(shareOf(everyone.get(month) ?? []).share, 12);
  });

  test('each technician has the share of the jobs that pass, and the line that of everybody’s', async () => {
    const listed = [...technicians].reverse();
    const view = await FilteredView.of(technicianRates({ technicians: listed }), data, signalsOf(asked));
    const passing = jobCells.filter((row) => isAsked(row, asked));
    const { technician: _one, ...besides } = asked;
    const all = shareOf(jobCells.filter((row) => isAsked(row, besides)));
    const [points] = view.items('symbol');
    const own = passing.filter(({ technician }) => technicians.includes(technician));
    expectShares(
      shown(points, 'technician'),
      Map.groupBy(own, ({ technician }) => technician),
    );
    for (const { y, datum } of points ?? []) expect(y).toBe(27 * (listed.indexOf(String(datum['technician'])) + 0.5));
    const [label, counted] = view.items('text');
    if (all.judged === 0) expect(label).toEqual([]);
    else expect(label?.map(({ text }) => text)).toEqual([`all ${Math.round(100 * all.share)}%`]);
    for (const { text, datum } of counted ?? [])
      expect(text).toBe(
        datum['judged'] === 0 ? 'none judged' : `${String(datum['flagged'])} of ${String(datum['judged'])}`,
      );
    // Whoever is not asked for has no text either.
    if (asked.technician !== undefined)
      expect(counted?.map(({ datum }) => datum['technician'])).toEqual([asked.technician]);
  });
});

test('taking the filter away again shows all', async () => {
  for (const chart of [flaggedByMonth({ months, crew: 'Birch' }), technicianRates({ technicians })]) {
    const before = (await FilteredView.of(chart, data)).places();
    const view = await FilteredView.of(chart, data, signalsOf({ crew: 'Birch', from: '2026-01' }));
    expect(view.places()).not.toEqual(before);
    expect((await view.filter(signalsOf({}))).places()).toEqual(before);
  }
});

test('a month carries its share, interval and n; one without judged jobs carries none', async () => {
  const one = { crew: 'a', technician: '', refrigerant: '', judged: 20, flagged: 4, month: '2026-02' };
  const empty = { ...one, judged: 0, flagged: 0, month: '2026-01' };
  const view = await FilteredView.of(flaggedByMonth({ months: ['2026-01', '2026-02'] }), { 'job-cells': [empty, one] });
  const [[point, ...others]] = view.items('symbol');
  expect(others).toEqual([]);
  // Newcombe 1998, method 3: 4 of 20 is 0.0807 to 0.4160
  expect(point?.datum).toMatchObject({ month: '2026-02', judged: 20, share: 0.2 });
  expect(point?.datum['low']).toBeCloseTo(0.0807, 4);
  expect(point?.datum['high']).toBeCloseTo(0.416, 4);
});

test('the reckoned interval is Wilson’s for whatever was counted', async () => {
  const pairs = [1, 2, 3, 7, 20, 400].flatMap((judged) =>
    [0, 1, Math.ceil(judged / 3), judged].map((flagged) => [judged, flagged]),
  );
  const cells = pairs.map(([judged, flagged], at) => ({ ...jobCells[0], technician: `t${at}`, judged, flagged }));
  const listed = cells.map(({ technician }) => technician);
  const [points] = (await FilteredView.of(technicianRates({ technicians: listed }), { 'job-cells': cells })).items(
    'symbol',
  );
  expect(points).toHaveLength(pairs.length);
  for (const [at, [judged, flagged]] of pairs.entries()) {
    const { low, high } = wilsonInterval(flagged, judged);
    expect(points?.[at]?.datum['low']).toBeCloseTo(low, 14);
    expect(points?.[at]?.datum['high']).toBeCloseTo(high, 14);
  }
});

test('an axis of shares ends at the next quarter above any crew’s interval, so that charts side by side compare', async () => {
  const cell = (crew: string, judged: number, flagged: number) => ({
    ...jobCells[0],
    month: '2026-01',
    crew,
    judged,
    flagged,
  });
  const endOf = async (rows: JobCell[], crew = 'a') =>
    (await FilteredView.of(flaggedByMonth({ months, crew }), { 'job-cells': rows })).domain('y');
  // Upper bounds by Wilson: 0 of 50 0.071, 4 of 20 0.416, 5 of 10 0.763.
  expect(await endOf([cell('a', 50, 0)])).toEqual([0, 0.25]);
  expect(await endOf([cell('a', 20, 4)])).toEqual([0, 0.5]);
  expect(await endOf([cell('a', 10, 5)])).toEqual([0, 1]);
  for (const crew of ['a', 'b', 'c']) expect(await endOf([cell('a', 50, 0), cell('b', 20, 4)], crew)).toEqual([0, 0.5]);
});
