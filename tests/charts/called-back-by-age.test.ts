import { describe, expect, test } from 'vitest';
import { calledBackByAge, lifeTableName, type LifeTableRow } from '../../src/charts/called-back-by-age.ts';
import { followUpEnding } from '../../src/fleet/callbacks/follow-up.ts';
import { lifeTableCounts, stepDays } from '../../src/fleet/callbacks/life-table-counts.ts';
import { kaplanMeier, stepAt } from '../../src/fleet/statistics/kaplan-meier.ts';
import { Random } from '../../src/numerics/random.ts';
import { type Asked, asks, isAsked, signalsOf } from './drawn-cells.ts';
import { FilteredView } from './filtered-view.ts';
import { lifeTableGroups, lifeTableRows } from './life-table-rows.ts';

const horizonDays = 365;
const chart = calledBackByAge({ groups: lifeTableGroups, stepDays, horizonDays });
const z = 1.959964;

interface Point {
  readonly age: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/** An actuarial life table, step by step as the textbook has it; it ends before the first step that fewer than twenty were watched in. */
function lifeTable(rows: readonly LifeTableRow[]): Point[] {
  const points: Point[] = [];
  let [under, kept, variance] = [0, 1, 0];
  for (let step = -1; step <= 12; step += 1) {
    const own = rows.filter((row) => row.step === step);
    if (own.length === 0) continue;
    const sum = (of: 'began' | 'late' | 'left' | 'called') => own.reduce((all, row) => all + row[of], 0);
    under += sum('began');
    const exposed = Math.max(sum('called'), under + sum('late') / 2 - sum('left') / 2);
    if (exposed < 20) break;
    const hazard = sum('called') / exposed;
    kept *= 1 - hazard;
    variance += hazard === 1 ? 0 : hazard / (exposed * (1 - hazard));
    under += sum('late') - sum('left') - sum('called');
    const half = kept === 1 || kept === 0 ? 0 : (z * Math.sqrt(variance)) / Math.abs(Math.log(kept));
    points.push({
      age: Math.min(horizonDays, (step + 1) * stepDays),
      share: 1 - kept,
      low: 1 - kept ** Math.exp(-half),
      high: kept === 1 ? Math.min(1, 3 / exposed) : 1 - kept ** Math.exp(half),
    });
  }
  return points;
}

/** What the chart draws of each group, by age. */
async function drawn(rows: readonly LifeTableRow[], asked: Asked = {}) {
  const view = await FilteredView.of(chart, { [lifeTableName]: rows }, signalsOf(asked));
  const points = view.linePoints().map(({ datum }) => datum as unknown as Point & { group: string });
  const [ends = []] = view.items('rule');
  const [names = []] = view.items('text');
  return {
    svg: await view.svg(),
    lines: Map.groupBy(points, ({ group }) => group),
    ends: ends.map(({ datum }) => datum as unknown as Point & { group: string }),
    names: names.map(({ text }) => text),
  };
}

function expectPoints(found: readonly Point[], wanted: readonly Point[]) {
  expect(found.map(({ age }) => age)).toEqual(wanted.map(({ age }) => age));
  for (const [at, point] of wanted.entries())
    for (const name of ['share', 'low', 'high'] as const) expect(found[at]?.[name]).toBeCloseTo(point[name], 10);
}

describe('what is drawn is the life table of the rows that pass', () => {
  test.each(asks.map((asked): [string, Asked] => [JSON.stringify(asked), asked]))('asked for %s', async (_, asked) => {
    const { lines, ends, names, svg } = await drawn(lifeTableRows, asked);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    const shown: string[] = [];
    for (const group of lifeTableGroups) {
      const wanted = lifeTable(lifeTableRows.filter((row) => row.group === group && isAsked(row, asked)));
      expectPoints(lines.get(group) ?? [], wanted);
      if (wanted.length === 0) continue;
      shown.push(group);
      expectPoints(
        ends.filter((end) => end.group === group),
        wanted.slice(-1),
      );
    }
    expect(new Set(names)).toEqual(new Set(shown));
    expect(names).toHaveLength(shown.length);
    if (Object.keys(asked).length === 0) expect(shown).toEqual([...lifeTableGroups]);
  });
});

/** Jobs as they are watched: most from the beginning, some from later on, until they call, leave or reach the horizon. */
function watchedJobs(count: number, seed: number) {
  const random = new Random(seed);
  const rows = Array.from({ length: count }, () => {
    const entry = random.chance(0.8) ? -1 : random.integer(0, 200);
    const calls = Math.ceil(-Math.log(1 - random.uniform()) * 700);
    const leaves = random.chance(0.7) ? horizonDays : random.integer(1, horizonDays);
    return { entry, stop: Math.min(calls, leaves), called: calls <= leaves };
  }).filter(({ entry, stop }) => entry < stop);
  return {
    jobs: Int32Array.from(rows.keys()),
    entries: Float64Array.from(rows, ({ entry }) => entry),
    stops: Float64Array.from(rows, ({ stop }) => stop),
    events: Uint8Array.from(rows, ({ called }) => Number(called)),
    endings: Uint8Array.from(rows, ({ called, stop }) => {
      if (called) return followUpEnding.callback;
      return stop === horizonDays ? followUpEnding.horizon : followUpEnding.stillWatched;
    }),
  };
}

test.each([60, 400, 5000])(
  'of %i jobs it is the product-limit estimate, as far as thirty days at a time can tell',
  async (count) => {
    const followed = watchedJobs(count, count);
    const counts = lifeTableCounts(followed, () => 0);
    const [group] = lifeTableGroups;
    const rows = counts.map(({ kind: _, ...one }) => ({
      month: '2026-01',
      crew: '',
      technician: '',
      refrigerant: '',
      group,
      ...one,
    }));
    const found = (await drawn(rows)).lines.get(group) ?? [];
    const steps = kaplanMeier(followed);
    // Within a step at least those that stayed through it were watched, at most all that were or came: so far apart can both be.
    let [under, least, most] = [0, 1, 1];
    for (const { step, began, late, left, called } of counts) {
      under += began;
      if (called > 0) {
        least *= called >= under - left ? 0 : 1 - called / (under - left);
        most *= 1 - called / (under + late);
      }
      under += late - left - called;
      const age = Math.min(horizonDays, (step + 1) * stepDays);
      const point = found.find((one) => one.age === age);
      if (point === undefined) continue;
      const exact = 1 - (stepAt(steps, age)?.share ?? 1);
      for (const share of [exact, point.share]) {
        expect(share).toBeGreaterThanOrEqual(1 - most - 1e-12);
        expect(share).toBeLessThanOrEqual(1 - least + 1e-12);
      }
      expect(Math.abs(point.share - exact)).toBeLessThan(count >= 400 ? 0.01 : 0.04);
    }
    expect(found.length).toBeGreaterThan(10);
  },
);

describe('where there is little to tell', () => {
  const row = (step: number, counts: Partial<LifeTableRow>): LifeTableRow => ({
    month: '2026-01',
    crew: '',
    technician: '',
    refrigerant: '',
    group: lifeTableGroups[0],
    step,
    began: 0,
    late: 0,
    left: 0,
    called: 0,
    ...counts,
  });

  test('the line ends where fewer than twenty are watched, and does not go on where more are again', async () => {
    const rows = [
      row(-1, { began: 32 }),
      row(0, { called: 16 }),
      row(1, { called: 4 }),
      row(2, { late: 80 }),
      row(3, { called: 8 }),
    ];
    const { lines } = await drawn(rows);
    expect(lines.get(lifeTableGroups[0])?.map(({ age, share }) => [age, share])).toEqual([
      [0, 0],
      [30, expect.closeTo(0.5, 12) as number],
    ]);
  });

  test('where all call back the line reaches one, without an interval', async () => {
    const all = await drawn([row(-1, { began: 24 }), row(0, { called: 24 })]);
    expect(all.svg).not.toMatch(/NaN|Infinity/);
    expect(all.ends).toMatchObject([{ age: 30, share: 1, low: 1, high: 1 }]);
    const late = await drawn([row(0, { late: 40, called: 40 })]);
    expect(late.svg).not.toMatch(/NaN|Infinity/);
    expect(late.ends).toMatchObject([{ share: 1 }]);
  });

  test('rows of a quarter are there whenever one of its months passes', async () => {
    const quarter = calledBackByAge({ groups: lifeTableGroups, stepDays, horizonDays, monthsEach: 3 });
    const rows = [
      { ...row(-1, { began: 36 }), month: '2025-07' },
      { ...row(0, { called: 12 }), month: '2025-07' },
    ];
    const isDrawn = async (from: string | null, to: string | null) =>
      (await FilteredView.of(quarter, { [lifeTableName]: rows }, { from, to })).linePoints().length > 0;
    const periods = [
      [null, null],
      ['2025-07', null],
      ['2025-09', '2025-09'],
      [null, '2025-07'],
      ['2025-01', null],
    ];
    for (const [from, to] of periods) expect([from, to, await isDrawn(from, to)]).toEqual([from, to, true]);
    const others = [
      ['2025-10', null],
      ['2026-07', null],
      [null, '2025-06'],
    ];
    for (const [from, to] of others) expect([from, to, await isDrawn(from, to)]).toEqual([from, to, false]);
  });

  test('where nobody called back the interval reaches as far as three of those watched', async () => {
    const { ends } = await drawn([row(-1, { began: 40 }), row(0, { left: 20 })]);
    expect(ends).toMatchObject([{ age: 30, share: 0, low: 0, high: 3 / 30 }]);
  });

  test('of fewer than twenty nothing is drawn', async () => {
    const { lines, names } = await drawn([row(-1, { began: 19 }), row(0, { called: 4 })]);
    expect([lines.size, names]).toEqual([0, []]);
  });
});

test('the lines are told apart without colour, too', async () => {
  const { svg } = await drawn(lifeTableRows);
  const [, layer = ''] = /class="mark-group role-scope (?:layer_0_)?pathgroup"[^>]*>([\s\S]*)/.exec(svg) ?? [];
  const dashes = [...layer.matchAll(/stroke-width="2.25"(?: stroke-dasharray="([^"]*)")?/g)].map(
    ([, dash = '']) => dash,
  );
  expect(new Set(dashes).size).toBe(3);
});
