import { expect, test } from 'vitest';
import { carriedJudgement } from '../../src/charts/carried-judgement.ts';
import { type Asked, asks, isAsked, signalsOf, skillCells, sumOf, technicians } from './drawn-cells.ts';
import { FilteredView } from './filtered-view.ts';

/** Of each row some jobs could not be judged. */
const cells = skillCells.map((cell, at) => ({ ...cell, jobs: cell.judged + (at % 3) }));
const skills = [...new Set(cells.map(({ skill }) => skill))];
const listed = technicians.slice(0, 3);
const named = asks.flatMap((asked) =>
  skills.map((skill): [string, Asked, string] => [JSON.stringify(asked), asked, skill]),
);

test.each(named)('asked for %s: each has the share of the jobs that pass', async (_, asked, skill) => {
  const chart = carriedJudgement({ technicians: listed, skill: skills[0] });
  const view = await FilteredView.of(chart, { 'skill-cells': cells }, { ...signalsOf(asked), skill });
  const passing = cells.filter(
    (cell) => cell.skill === skill && listed.includes(cell.technician) && isAsked(cell, asked),
  );
  const wanted = new Map(
    [...Map.groupBy(passing, ({ technician }) => technician)].flatMap(([technician, own]) => {
      const [jobs, judged] = [sumOf(own, 'jobs'), sumOf(own, 'judged')];
      return jobs === 0 ? [] : [[technician, { jobs, judged, share: judged / jobs, counts: `${judged} of ${jobs}` }]];
    }),
  );
  const [frames = [], bars = []] = view.items('rect');
  const [texts = []] = view.items('text');
  for (const marks of [frames, bars, texts])
    expect(marks.map(({ datum }) => String(datum['technician'])).sort()).toEqual([...wanted.keys()].sort());
  for (const { datum } of bars) expect(datum).toMatchObject(wanted.get(String(datum['technician'])) ?? {});
  for (const { text, datum } of texts) expect(text).toBe(wanted.get(String(datum['technician']))?.counts);
});

test('a bar is as long as the share of its frame, in the row of its name', async () => {
  const row = { skill: 'a', month: '', crew: '', refrigerant: '', found: 0, expected: 0 };
  const rows = [
    { ...row, technician: 'Ash', jobs: 8, judged: 2 },
    { ...row, technician: 'Dee', jobs: 4, judged: 4 },
    { ...row, technician: 'Bo', jobs: 3, judged: 0 },
    { ...row, technician: 'Nobody', jobs: 0, judged: 0 },
  ];
  const names = ['Ash', 'Bo', 'Dee', 'Nobody'];
  const view = await FilteredView.of(carriedJudgement({ technicians: names, skill: 'a' }), { 'skill-cells': rows });
  const [frames = [], bars = []] = view.items('rect') as unknown as {
    width: number;
    y: number;
    height: number;
    datum: { technician: string };
  }[][];
  const [width] = frames.map((frame) => frame.width);
  for (const { datum, ...bar } of bars) {
    expect(bar.width / (width ?? 1)).toBeCloseTo({ Ash: 0.25, Dee: 1, Bo: 0 }[datum.technician] ?? -1, 12);
    expect(bar.y + bar.height / 2).toBeCloseTo(27 * (names.indexOf(datum.technician) + 0.5), 6);
  }
  expect(bars).toHaveLength(3);
});
