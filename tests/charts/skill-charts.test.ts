import { describe, expect, test } from 'vitest';
import { foundOverExpected } from '../../src/charts/found-over-expected.ts';
import { funnelLimitRows, skillFunnel } from '../../src/charts/skill-funnel.ts';
import type { SkillCell } from '../../src/charts/skill-cell.ts';
import { funnelCurve } from '../../src/fleet/statistics/funnel-curve.ts';
import { funnelLimits } from '../../src/fleet/statistics/funnel-limits.ts';
import { bracketedRoot } from '../../src/numerics/bracketed-root.ts';
import { type Asked, asks, isAsked, signalsOf, skillCells, sumOf, technicians } from './drawn-cells.ts';
import { type DrawnItem, FilteredView } from './filtered-view.ts';
import { datasets } from './filterable-specimens.ts';

const skills = [...new Set(skillCells.map(({ skill }) => skill))];
const [skill, otherSkill] = skills;
const named: [string, Asked, string][] = asks.flatMap((asked) =>
  skills.map((one): [string, Asked, string] => [JSON.stringify(asked), asked, one]),
);

/** Technicians' sums over what passes. */
function sums(asked: Asked, of: string) {
  const passing = skillCells.filter((cell) => cell.skill === of && cell.technician !== '' && isAsked(cell, asked));
  return [...Map.groupBy(passing, ({ technician }) => technician)].map(([technician, cells]) => ({
    technician,
    judged: sumOf(cells, 'judged'),
    found: sumOf(cells, 'found'),
    expected: sumOf(cells, 'expected'),
  }));
}

const who = ({ datum }: DrawnItem) => String(datum['technician']);

/** Chance that at most so many come where so many are to be expected, summed term by term. */
function poissonUpTo(count: number, mean: number): number {
  let [term, sum] = [Math.exp(-mean), 0];
  for (let at = 0; at <= count; at += 1) {
    sum += term;
    term *= mean / (at + 1);
  }
  return sum;
}

describe.each(named)('asked for %s', (_, asked, of) => {
  test(`found over expected is that of the jobs that pass (${of})`, async () => {
    const chart = foundOverExpected({ technicians, skill });
    const view = await FilteredView.of(chart, datasets, { ...signalsOf(asked), skill: of });
    const wanted = sums(asked, of).filter(({ expected }) => expected > 0);
    const points = view.items('symbol')[0] ?? [];
    expect(points.map(who).sort()).toEqual(wanted.map(({ technician }) => technician).sort());
    for (const { technician, judged, found, expected } of wanted) {
      const point = points.find((item) => who(item) === technician);
      expect(point?.datum).toMatchObject({ judged, found });
      expect(point?.datum['ratio']).toBeCloseTo(found / expected, 12);
      const text = view.items('text')[0]?.find((item) => who(item) === technician)?.text;
      // Two lines where the chart is in a narrow place.
      expect(text).toBe(`${found} of ${judged}; ${expected.toFixed(1)} expected`);
    }
  });

  test(`the funnel has a point for each, outside where the limits say so (${of})`, async () => {
    const view = await FilteredView.of(skillFunnel({ skill }), datasets, { ...signalsOf(asked), skill: of });
    const wanted = sums(asked, of).filter(({ expected }) => expected > 0);
    const points = view.items('symbol')[0] ?? [];
    expect(points.map(who).sort()).toEqual(wanted.map(({ technician }) => technician).sort());
    for (const { technician, found, expected } of wanted) {
      const { datum, shape } = points.find((item) => who(item) === technician) as DrawnItem;
      expect(datum['expected']).toBeCloseTo(expected, 10);
      expect(datum['ratio']).toBeCloseTo(found / expected, 10);
      // The curve of the specimen: one in five.
      const { low998, high998 } = funnelLimits(0.2, expected / 0.2);
      const [low, high] = [low998 / 0.2, Math.min(1, high998) / 0.2];
      const side = found / expected > high ? 'triangle-up' : found / expected < low ? 'triangle-down' : 'circle';
      const isNear = [low, high].some((limit) => Math.abs(limit - found / expected) < 0.1);
      if (!isNear && expected >= 0.275) expect([technician, shape]).toEqual([technician, side]);
    }
    // Curves are those of the skill that is shown.
    for (const line of view.items('line')) for (const { datum } of line) expect(datum['skill']).toBe(of);
  });
});

test('whoever is farthest outside has a name, a few at most, and no name is in the way of another', async () => {
  const cell = (technician: string, found: number, expected: number): SkillCell => ({
    ...skillCells[0],
    skill,
    technician,
    judged: 5 * expected,
    found,
    expected,
  });
  const rows = [
    ...['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((name, at) => cell(name, 40 + 8 * at, 20)),
    cell('within', 21, 20),
    cell('few', 0, 20),
  ];
  const data = { 'skill-cells': rows, 'funnel-limits': funnelLimitRows(skill, funnelCurve(0.2, 20)) };
  const view = await FilteredView.of(skillFunnel({ skill }), data);
  const texts = view.items('text').at(-1) ?? [];
  const seen = texts.filter(({ opacity }) => opacity === 1);
  expect(texts.map(who).sort()).toEqual(['c', 'd', 'e', 'f', 'g']);
  expect(seen.length).toBeGreaterThan(0);
  for (const one of seen)
    for (const other of seen) if (one !== other) expect(Math.abs((one.y ?? 0) - (other.y ?? 0))).toBeGreaterThan(12);
  const shapes = new Map(view.items('symbol')[0]?.map((item) => [who(item), item.shape]));
  expect([shapes.get('within'), shapes.get('few'), shapes.get('a')]).toEqual([
    'circle',
    'triangle-down',
    'triangle-up',
  ]);
});

test('another skill has other points', async () => {
  for (const chart of [skillFunnel({ skill }), foundOverExpected({ skill, technicians })]) {
    const view = await FilteredView.of(chart, datasets);
    const before = view.places();
    expect((await view.filter({ skill: otherSkill })).places()).not.toEqual(before);
    expect((await view.filter({ skill })).places()).toEqual(before);
  }
});

describe('Byar’s interval beside the exact one of a Poisson count', () => {
  const counts = [0, 1, 2, 3, 4, 5, 8, 12, 20, 50, 100, 400];
  const cells = counts.map((found, at): SkillCell => {
    const expected = found === 0 ? 3 : found / (0.5 + 0.1 * at);
    return { ...skillCells[0], skill, technician: `t${at}`, jobs: 1000, judged: 1000, found, expected };
  });

  test.each(counts.map((found, at) => [found, at]))('%i found', async (found, at) => {
    const chart = foundOverExpected({ skill, technicians: cells.map(({ technician }) => technician) });
    const view = await FilteredView.of(chart, { 'skill-cells': cells });
    const datum = view.items('symbol')[0]?.find((item) => who(item) === `t${at}`)?.datum ?? {};
    const { expected } = cells[at];
    const high = bracketedRoot((mean) => poissonUpTo(found, mean) - 0.025, found, 3 * found + 10);
    expect(Math.abs((Number(datum['high']) * expected) / high - 1)).toBeLessThan(found === 0 ? 0.006 : 0.0015);
    if (found === 0) {
      expect(datum['low']).toBe(0);
      return;
    }
    const low = bracketedRoot((mean) => 1 - poissonUpTo(found - 1, mean) - 0.025, 1e-6, found);
    const within = [0, 0.49, 0.073, 0.026, 0.013][found] ?? 0.008;
    expect(Math.abs((Number(datum['low']) * expected) / low - 1)).toBeLessThan(within);
  });
});

test('what lies beyond ten times or a tenth is an arrow head at the edge', async () => {
  const cell = (technician: string, found: number): SkillCell => ({
    ...skillCells[0],
    skill,
    technician,
    judged: 90,
    found,
    expected: 2,
  });
  const rows = [cell('many', 60), cell('none', 0), cell('some', 2)];
  const view = await FilteredView.of(foundOverExpected({ skill, technicians: ['many', 'none', 'some'] }), {
    'skill-cells': rows,
  });
  const shown = view.items('symbol')[0]?.map((item) => [who(item), item.shape, item.datum['drawnRatio']]);
  expect(shown).toHaveLength(3);
  for (const wanted of [
    ['many', 'triangle-right', 10],
    ['none', 'triangle-left', 0.1],
    ['some', 'circle', 1],
  ])
    expect(shown).toContainEqual(wanted);
});
