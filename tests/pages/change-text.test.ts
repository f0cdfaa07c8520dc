import { describe, expect, test } from 'vitest';
import { changeText, joinedChanges, surest, trainingText } from '../../src/pages/change-text.ts';
import type { DatedChange, NamedUnit, TrainingReport } from '../../src/pages/fleet-data.ts';

const ada: NamedUnit = { kind: 'technician', id: 't1', name: 'Quartz Ladle' };
const north: NamedUnit = { kind: 'crew', id: 'north', name: 'north' };

function change(day: string, own: Partial<DatedChange> = {}): DatedChange {
  return {
    unit: ada,
    skill: { id: 'rise', title: 'rise test' },
    direction: 'worse',
    chart: 'cumulative-sum',
    jobId: `at-${day}`,
    day,
    sinceJobId: 'J-1',
    sinceDay: '2026-01-05',
    level: 6,
    limit: 5,
    ...own,
  };
}

describe('joinedChanges', () => {
  const days = (joined: ReturnType<typeof joinedChanges>) =>
    joined.map(({ all }) => all.map(({ day }) => day.slice(-1)).join(' '));

  test('joins what charts say of one unit, skill and direction; the first tells the day, the latest told comes first', () => {
    const all = [
      change('2026-02-01'),
      change('2026-02-02', { unit: north }),
      change('2026-02-03', { unit: north, direction: 'better' }),
      change('2026-02-04', { chart: 'month' }),
      change('2026-02-05', { skill: { id: 'charge', title: 'charge' } }),
      change('2026-02-06', { chart: 'moving-average', unit: { ...ada, name: 'Q. Ladle' } }),
    ];
    const joined = joinedChanges(all);
    expect(days(joined)).toEqual(['1 4 6', '5', '3', '2']);
    expect(joined.map(({ first }) => first.day.slice(-1))).toEqual(['1', '5', '3', '2']);
    expect(joinedChanges([])).toEqual([]);
  });

  test('keeps apart what a signal to the other side parts', () => {
    const all = [
      change('2026-02-01'),
      change('2026-02-02', { chart: 'month' }),
      change('2026-02-03', { direction: 'better' }),
      change('2026-02-04'),
    ];
    expect(days(joinedChanges(all))).toEqual(['4', '3', '1 2']);
  });

  test.each([
    ['2027-02-01', 1],
    ['2027-02-02', 2],
  ])('joins what is at most a year after the signal before, as on %s', (day, count) => {
    expect(joinedChanges([change('2026-02-01'), change(day)])).toHaveLength(count);
    expect(joinedChanges([change('2025-08-01'), change('2026-02-01'), change(day)])).toHaveLength(count);
  });

  test('keeps apart what is named alike: a crew and a technician of one id', () => {
    expect(joinedChanges([change('2026-02-01'), change('2026-02-01', { unit: { ...north, id: 't1' } })])).toHaveLength(
      2,
    );
  });

  test('puts the later job of one day first', () => {
    const all = [change('2026-02-01', { jobId: 'J-1' }), change('2026-02-01', { jobId: 'J-2', unit: north })];
    expect(joinedChanges(all).map(({ first }) => first.jobId)).toEqual(['J-2', 'J-1']);
  });
});

describe('surest', () => {
  const told = (name: string, day: string, ...charts: DatedChange['chart'][]): DatedChange[] =>
    charts.map((chart) => change(day, { chart, unit: { ...north, id: name, name } }));
  const changes = joinedChanges([
    ...told('old sum', '2026-01-01', 'cumulative-sum'),
    ...told('old both', '2026-01-02', 'cumulative-sum', 'month'),
    ...told('three', '2026-01-03', 'cumulative-sum', 'month', 'moving-average'),
    ...told('often', '2026-01-04', 'month', 'month', 'month'),
    ...told('late', '2026-01-05', 'month'),
  ]);
  const names = (count: number) => surest(changes, count).map(({ first }) => first.unit.name);

  test('are those that most charts tell, of these the latest', () => {
    expect(names(2)).toEqual(['three', 'old both']);
    expect(names(3)).toEqual(['late', 'three', 'old both']);
  });

  test('stand in the order of all', () => {
    expect(names(9)).toEqual(['late', 'often', 'three', 'old both', 'old sum']);
    expect(names(0)).toEqual([]);
  });
});

describe('changeText', () => {
  const told = (...all: DatedChange[]) => changeText(joinedChanges(all)[0]);

  test('says who, what, since when, and by which job it was told', () => {
    const text = told(change('2026-02-01', { jobId: '17' }));
    for (const part of [
      'Quartz Ladle, rise test',
      'worse since about 5 Jan 2026',
      'told on 1 Feb 2026, with job 17',
      'running sum',
    ])
      expect(text).toContain(part);
    expect(text).not.toContain('later');
  });

  test('where only months told it, says which', () => {
    const months = ['2026-03-04', '2026-03-04', '2026-05-30'].map((day) => change(day, { chart: 'month' }));
    expect(told(months[0])).toContain('Quartz Ladle, rise test: worse in Mar 2026 ');
    expect(told(...months)).toContain(': worse in Mar 2026 and May 2026 ');
    // No job and no day began it.
    expect(told(...months)).not.toMatch(/since|told|J-1|at-/);
    expect(told(months[0], change('2026-04-01'))).toContain('worse since about 5 Jan 2026');
  });

  test('names each other chart once', () => {
    const charts = ['month', 'moving-average', 'month', 'cumulative-sum', 'moving-average'] as const;
    expect(told(...charts.map((chart, at) => change(`2026-02-0${at + 1}`, { chart, unit: north })))).toMatch(
      /^crew north, .* by the month, later the moving average and the running sum too\.$/,
    );
  });

  test('of the whole fleet says so', () => {
    const unit = { kind: 'fleet', id: 'fleet', name: 'all' } as const;
    expect(told(change('2026-02-01', { unit, direction: 'better' }))).toMatch(
      /^The whole fleet, rise test: better since/,
    );
  });
});

describe('trainingText', () => {
  type Effect = NonNullable<TrainingReport['effect']>;
  const side = (found: number, jobs: number) => ({ found, jobs, expected: 3, share: found / jobs });
  const effect = (verdict: Effect['verdict'], own: Partial<Effect> = {}): Effect => ({
    before: side(10, 16),
    after: side(4, 13),
    baseline: 0.593,
    oddsRatio: { low: 0.0537, mid: 0.264, high: 13.4 },
    verdict,
    ...own,
  });
  const training = (own: Partial<TrainingReport>): TrainingReport => ({
    trainingId: '1',
    technician: ada,
    day: '2026-01-31',
    topic: 'rise',
    skill: { id: 'rise', title: 'rise test' },
    effect: effect('better'),
    ...own,
  });

  test.each([
    ['better', /: better than was to be expected from before\.$/],
    ['worse', /: worse than was to be expected from before\.$/],
    ['no-change-shown', /: no change shown,/],
  ] as const)('%s, beside what was to be expected from before', (verdict, words) => {
    const text = trainingText(training({ effect: effect(verdict) }));
    for (const part of [
      'Quartz Ladle, 31 Jan 2026, rise: ',
      'before 10 of 16, after 4 of 13',
      '59% were to be expected from before',
      'odds × 0.26 (0.054–13)',
    ])
      expect(text).toContain(part);
    expect(text).toMatch(words);
  });

  test.each([
    [4.1, true],
    [3.9, false],
  ])('no change shown within odds × %d says whether one could have been', (times, isWide) => {
    const oddsRatio = { low: 0.5, mid: 0.9, high: 0.5 * times };
    const text = trainingText(training({ effect: effect('no-change-shown', { oddsRatio }) }));
    expect(text.endsWith('so few jobs can hardly show one.')).toBe(isWide);
    expect(trainingText(training({ effect: effect('better', { oddsRatio }) }))).not.toContain('hardly');
  });

  test('many jobs have their thousands apart', () => {
    expect(trainingText(training({ effect: effect('worse', { after: side(1300, 12_000) }) }))).toContain(
      'after 1\u00a0300 of 12\u00a0000, where',
    );
  });

  test('too few: counts, and no odds', () => {
    const few = effect('too-few', { after: side(0, 0), baseline: Number.NaN });
    expect(trainingText(training({ effect: few }))).toBe(
      'Quartz Ladle, 31 Jan 2026, rise: flagged before 10 of 16, after 0 of 0; too few jobs for a verdict: ten a side are needed.',
    );
  });

  test('of whether tests were made names what it is held against', () => {
    expect(trainingText(training({ skill: { id: 'rise-made', title: 'rise test made' } }))).toContain(
      '31 Jan 2026, rise (rise test made): flagged before 10 of 16',
    );
  });

  test.each([
    ['knots', 'Quartz Ladle, 31 Jan 2026, knots: no skill or check of ours, nothing to hold it against.'],
    ['', 'Quartz Ladle, 31 Jan 2026, no topic: no skill or check of ours, nothing to hold it against.'],
  ])('without a skill, topic "%s"', (topic, says) => {
    expect(trainingText(training({ topic, skill: null, effect: null }))).toBe(says);
  });

  test('of somebody without jobs says that, and not that the topic is unknown', () => {
    expect(trainingText(training({ effect: null }))).toBe(
      'Quartz Ladle, 31 Jan 2026, rise: no job of theirs is on record, nothing to hold it against.',
    );
  });
});
