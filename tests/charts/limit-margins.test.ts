import { describe, expect, test } from 'vitest';
import { limitMargins, type LimitPoint } from '../../src/charts/limit-margins.ts';
import { median } from '../../src/numerics/median.ts';
import { type Asked, asks, isAsked, limitPoints, signalsOf } from './drawn-cells.ts';
import { FilteredView } from './filtered-view.ts';

const data = { 'limit-points': limitPoints };
const named: [string, Asked][] = asks.map((asked) => [JSON.stringify(asked), asked]);
const drawnRatio = ({ ratio }: LimitPoint) => Math.min(100, Math.max(0.01, ratio));

describe.each(named)('asked for %s', (_, asked) => {
  test('each job with a day has a point, by its outcome', async () => {
    const view = await FilteredView.of(limitMargins(), data, signalsOf(asked));
    const passing = limitPoints.filter((point) => point.day !== '' && isAsked(point, asked));
    const [, passed, flagged] = view.items('symbol');
    const place = (day: unknown, ratio: unknown) => `${String(day)} ${String(ratio)}`;
    const shown = (items: typeof passed, shape: string) =>
      (items ?? [])
        .filter((item) => item.shape === shape)
        .map(({ datum }) => place(new Date(datum['at'] as number).toISOString().slice(0, 10), datum['ratio']))
        .sort();
    const wanted = (outcome: string) =>
      passing
        .filter((point) => point.outcome === outcome)
        .map(({ day, ratio }) => place(day, ratio))
        .sort();
    expect(shown(passed, 'circle')).toEqual(wanted('pass'));
    expect(shown(flagged, 'triangle-up')).toEqual(wanted('suspect'));
    expect(shown(flagged, 'square')).toEqual(wanted('fail'));
  });

  test('each month has a bar at the median of its jobs', async () => {
    const view = await FilteredView.of(limitMargins(), data, signalsOf(asked));
    const passing = limitPoints.filter((point) => point.day !== '' && isAsked(point, asked));
    const wanted = [...Map.groupBy(passing, ({ month }) => month)].map(([month, points]) => [
      month,
      Number(median(Float64Array.from(points, drawnRatio)).toPrecision(12)),
    ]);
    const bars = view.items('rule').at(-1) ?? [];
    const sorted = (rows: unknown[][]) => rows.toSorted(([a], [b]) => String(a).localeCompare(String(b)));
    expect(sorted(bars.map(({ datum }) => [datum['month'], Number(Number(datum['median']).toPrecision(12))]))).toEqual(
      sorted(wanted),
    );
    for (const { datum } of bars) {
      const [from, until] = ['from', 'until'].map((name) => new Date(datum[name] as number));
      expect(from?.toISOString()).toBe(`${String(datum['month'])}-01T00:00:00.000Z`);
      expect([until?.getUTCDate(), until?.getUTCHours()]).toEqual([1, 0]);
      expect(((until?.getUTCMonth() ?? 0) - (from?.getUTCMonth() ?? 0) + 12) % 12).toBe(1);
    }
  });
});

test('where some of many are shown, each counts for as many as it stands for', async () => {
  const at = (ratio: number, weight: number): LimitPoint => ({
    job: 'job',
    crew: '',
    technician: '',
    refrigerant: '',
    month: '2026-01',
    day: '2026-01-15',
    ratio,
    outcome: ratio > 1 ? 'fail' : 'pass',
    weight,
  });
  const medianOf = async (points: LimitPoint[]) =>
    (await FilteredView.of(limitMargins(), { 'limit-points': points })).items('rule').at(-1)?.[0]?.datum['median'];
  // Of 24 jobs three are over the limit and all of them are shown, of the others three for seven each.
  expect(await medianOf([at(2, 1), at(0.1, 7), at(3, 1), at(0.2, 7), at(4, 1), at(0.3, 7)])).toBe(0.2);
  expect(await medianOf([at(0.4, 2.5), at(0.1, 2.5)])).toBe(0.25);
  expect(await medianOf([at(0.4, 1), at(0.4, 1), at(0.1, 2)])).toBe(0.25);
});

test('the axes hold still while people are chosen, and a period widens its days', async () => {
  const view = await FilteredView.of(limitMargins(), data);
  const [days, ratios] = [view.domain('x').map(Number), view.domain('y')];
  await view.filter(signalsOf({ crew: 'Birch', technician: 'Ash' }));
  expect([view.domain('x').map(Number), view.domain('y')]).toEqual([days, ratios]);
  await view.filter(signalsOf({ from: '2026-01', to: '2026-01' }));
  expect(view.domain('y')).toEqual(ratios);
  expect(view.domain('x').map(Number)[1]).toBe(Date.UTC(2026, 1, 1));
  expect(view.domain('x').map(Number)[0]).toBeGreaterThanOrEqual(Date.UTC(2026, 0, 1));
});

test('the limit is in sight though all jobs are far from it, and what is beyond stands at the edge', async () => {
  const point = { ...limitPoints[0], month: '2026-01', day: '2026-01-15', outcome: 'pass' } as LimitPoint;
  const far = await FilteredView.of(limitMargins(), {
    'limit-points': [
      { ...point, ratio: 0.1 },
      { ...point, ratio: 1e-9 },
    ],
  });
  expect(far.domain('y')).toEqual([0.01, 2]);
  expect(far.items('symbol')[1]?.map(({ datum }) => datum['drawnRatio'])).toEqual([0.1, 0.01]);
});
