import { describe, expect, test } from 'vitest';
import { changeText, joinedChanges, trainingText } from '../../src/pages/change-text.ts';
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
  test('joins what charts say of one unit, skill and direction; the first tells the day', () => {
    const all = [
      change('2026-02-01'),
      change('2026-02-02', { unit: north }),
      change('2026-02-03', { direction: 'better' }),
      change('2026-02-04', { chart: 'month' }),
      change('2026-02-05', { skill: { id: 'charge', title: 'charge' } }),
      change('2026-02-06', { chart: 'moving-average', unit: { ...ada, name: 'Q. Ladle' } }),
    ];
    const joined = joinedChanges(all);
    expect(joined.map(({ all: of }) => of.map(({ day }) => day.slice(-1)))).toEqual([
      ['5'],
      ['3'],
      ['2'],
      ['1', '4', '6'],
    ]);
    expect(joined.map(({ first }) => first.day.slice(-1))).toEqual(['5', '3', '2', '1']);
    expect(joinedChanges([])).toEqual([]);
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

describe('changeText', () => {
  const told = (...all: DatedChange[]) => changeText(joinedChanges(all)[0]);

  test('says who, what, since when, and by which job it was told', () => {
    expect(told(change('2026-02-01', { jobId: '17' }))).toBe(
      'Quartz Ladle, rise test: worse since about 2026-01-05; told on 2026-02-01, with job 17, by the running sum.',
    );
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
    ['better', 'better than without it'],
    ['worse', 'worse than without it'],
    ['no-change-shown', 'no change shown'],
  ] as const)('%s, beside what would have come without', (verdict, words) => {
    expect(trainingText(training({ effect: effect(verdict) }))).toBe(
      `Quartz Ladle, 2026-01-31, rise: flagged before 10 of 16, after 4 of 13, where 59% were to be expected without it; odds × 0.26 (0.054–13): ${words}.`,
    );
  });

  test('many jobs have their thousands apart', () => {
    expect(trainingText(training({ effect: effect('worse', { after: side(1300, 12_000) }) }))).toContain(
      'after 1\u00a0300 of 12\u00a0000, where',
    );
  });

  test('too few: counts, and no odds', () => {
    const few = effect('too-few', { after: side(0, 0), baseline: Number.NaN });
    expect(trainingText(training({ effect: few }))).toBe(
      'Quartz Ladle, 2026-01-31, rise: flagged before 10 of 16, after 0 of 0; too few jobs for a verdict: ten a side are needed.',
    );
  });

  test('of whether tests were made names what it is held against', () => {
    expect(trainingText(training({ skill: { id: 'rise-made', title: 'rise test made' } }))).toContain(
      '2026-01-31, rise (rise test made): flagged before 10 of 16',
    );
  });

  test.each([
    ['knots', 'Quartz Ladle, 2026-01-31, knots: no skill or check of ours, nothing to hold it against.'],
    ['', 'Quartz Ladle, 2026-01-31, no topic: no skill or check of ours, nothing to hold it against.'],
  ])('without a skill, topic "%s"', (topic, says) => {
    expect(trainingText(training({ topic, skill: null, effect: null }))).toBe(says);
  });

  test('of somebody without jobs says that, and not that the topic is unknown', () => {
    expect(trainingText(training({ effect: null }))).toBe(
      'Quartz Ladle, 2026-01-31, rise: no job of theirs is on record, nothing to hold it against.',
    );
  });
});
