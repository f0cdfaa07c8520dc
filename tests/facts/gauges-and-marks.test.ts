import { describe, expect, test } from 'vitest';
import { judgedSeries } from '../../src/facts/vacuum-facts.ts';
import type { Gauge } from '../../src/records/tables/gauges.ts';
import type { PhaseMark } from '../../src/traces/vacuum-series.ts';
import { MICRON_PA, SyntheticLog } from './synthetic-log.ts';
import { atmosphere, facts, job, started_at } from './vacuum-job.ts';

const gauge = (kind: Gauge['kind']): Gauge => ({ gauge_id: 'g1', kind, accuracy_ratio: 0.1 });

describe('gauges', () => {
  test('a compound gauge carries no judgement in microns', () => {
    const found = facts(job().series(), { gauge: gauge('compound') });
    expect(found).toMatchObject({ vacuum_problem: 'compound-gauge' });
    expect(found).not.toHaveProperty('deepest_pa');
    expect(found).not.toHaveProperty('isolation_start_s');
  });

  test("the record's accuracy goes before that of the gauges table", () => {
    const recorded = { job_id: 'j1', started_at, gauge_accuracy_ratio: 0.03 };
    expect(facts(job().series(), { gauge: gauge('thermal') }).gauge_accuracy_ratio).toBe(0.1);
    expect(facts(job().series(), { gauge: gauge('thermal'), job: recorded }).gauge_accuracy_ratio).toBe(0.03);
  });

  test('of several gauges the one that the record names judges, else the first by name that was read', () => {
    const named = (name: string, readings = 20) => ({
      gauge: name,
      elapsedS: Float64Array.from({ length: readings }, (_, index) => index),
      vacuumPa: new Float64Array(readings).fill(50),
    });
    const unread = { ...named('a'), vacuumPa: new Float64Array(20).fill(Number.NaN) };
    const all = [named('c'), unread, named('b')];
    const asked = { job_id: 'j1', started_at, gauge_id: 'c' };
    expect(judgedSeries({ job: asked, series: all })?.gauge).toBe('c');
    expect(judgedSeries({ job: { ...asked, gauge_id: 'z' }, series: all })?.gauge).toBe('b');
    expect(judgedSeries({ series: all })?.gauge).toBe('b');
    expect(judgedSeries({ series: [unread] })).toBeUndefined();
  });
});

describe('marks of the source', () => {
  const flat = () =>
    new SyntheticLog({ noiseRatio: 0.01, seed: 8 }).hold(atmosphere, 20).pull(atmosphere, 100, 600).hold(100, 1200);
  const marks = (isolationS: number): PhaseMark[] => [
    { elapsedS: 20, phase: 'pull-down' },
    { elapsedS: 700, phase: 'hold' },
    { elapsedS: isolationS, phase: 'isolation' },
  ];

  test('where the pressure is flat, a mark tells the isolation, and its basis says so', () => {
    const found = facts(flat().series(), { marks: marks(1220) });
    expect(found).toMatchObject({ isolation_basis: 'mark', isolation_start_s: 1220, marked: true });
    expect(Math.abs(found.rise_pa ?? 1)).toBeLessThan(2 * MICRON_PA);
  });

  test('without marks a flat pressure shows none, and leaves open whether a long hold hides one', () => {
    const found = facts(flat().series());
    expect(found).toMatchObject({ rise_shape: 'undecided', marked: false });
    expect(found).not.toHaveProperty('isolation_start_s');
  });

  test('where the pressure shows it, a late mark changes nothing', () => {
    const { isolation_start_s, isolation_basis } = facts(job().series(), { marks: marks(1400) });
    expect(isolation_basis).toBe('pressure');
    expect(isolation_start_s).toBe(facts(job().series()).isolation_start_s);
  });

  test('a mark that calls the rise test a hold does not hide a clear rise', () => {
    const found = facts(job().series(), { marks: marks(1220).map((mark) => ({ ...mark, phase: 'hold' })) });
    expect(Math.abs((found.isolation_start_s ?? 0) - 1220)).toBeLessThanOrEqual(10);
  });

  test('a mark in the midst of the pull is contradicted by the pressure', () => {
    const log = new SyntheticLog().hold(atmosphere, 20).pull(atmosphere, 100, 1200).series();
    expect(facts(log, { marks: marks(300) })).toMatchObject({ rise_shape: 'absent' });
  });

  test('a mark without a phase is no mark', () => {
    expect(facts(job().series(), { marks: [{ elapsedS: 5, phase: null }] }).marked).toBe(false);
  });
});

describe('a coarse log, a reading each 30 s', () => {
  // Down to 28 Pa by 240 s, held until the valve closes at 420 s, 34.6 Pa at the end; marked as it was.
  const elapsedS = Float64Array.from({ length: 25 }, (_, index) => index * 30);
  const vacuumPa = elapsedS.map((timeS) => {
    if (timeS <= 240) return 28 + 100_000 * Math.exp(-timeS / 25);
    return timeS <= 420 ? 28 : 28 + (6.6 * (timeS - 420)) / 300;
  });
  const marks: PhaseMark[] = [
    { elapsedS: 0, phase: 'pull-down' },
    { elapsedS: 240, phase: 'hold' },
    { elapsedS: 420, phase: 'isolation' },
  ];

  test.each([
    ['with marks', marks],
    ['without marks', []],
  ])('its isolation is found, %s', (_, told) => {
    const found = facts({ gauge: null, elapsedS, vacuumPa }, { marks: told });
    // Its start is not placed well yet on so coarse a log, but nobody is told that there was no test.
    expect(found.isolation_start_s).toBeGreaterThanOrEqual(240);
    expect(found.isolation_start_s).toBeLessThanOrEqual(450);
    expect(found.isolation_end_pa).toBeCloseTo(34.6, 1);
  });
});
