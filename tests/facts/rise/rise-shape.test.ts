import { describe, expect, test } from 'vitest';
import { facts, job } from '../vacuum-job.ts';
import { SyntheticLog } from '../synthetic-log.ts';
import { fitted, isolatedRise, outgassing, type RiseOptions, saturating, shapeOf } from './isolated-rise.ts';

const fromPa = 40;
/** 500 µm. */
const limitPa = 66.661184;

/** Shapes found with thirty seeds. */
function shapes(at: (sinceS: number) => number, options: RiseOptions = {}, levelLimitPa?: number): string[] {
  return Array.from({ length: 30 }, (_, seed) => {
    const series = isolatedRise((s) => fromPa + at(s), { noiseRatio: 0.005, ...options, seed: seed + 1 });
    return shapeOf(fitted(series), fromPa, levelLimitPa);
  });
}

/** Five of six and more, and at most one with a wrong word instead. */
function expectClear(found: string[], word: string): void {
  expect(found.filter((shape) => shape === word).length).toBeGreaterThanOrEqual(25);
  expect(found.filter((shape) => shape !== word && shape !== 'undecided').length).toBeLessThanOrEqual(1);
}

/** Nine of ten and more undecided; or a third and more, where a word may come of it by chance. */
function expectOpen(found: string[], byChance?: string): void {
  const undecided = found.filter((shape) => shape === 'undecided').length;
  expect(undecided).toBeGreaterThanOrEqual(byChance === undefined ? 27 : 10);
  expect(found.filter((shape) => shape !== byChance && shape !== 'undecided').length).toBeLessThanOrEqual(1);
}

const line =
  (pa: number, testS = 900) =>
  (s: number) =>
    (pa * s) / testS;

describe('a clear curve gets its word', () => {
  test('dry: less than 10 µm, whatever it be', () => {
    expectClear(
      shapes(() => 0),
      'dry',
    );
    expectClear(shapes(line(0.3)), 'dry');
    expectClear(shapes(saturating(0.4, 200)), 'dry');
    expectClear(shapes(saturating(0.4, 18), { noiseRatio: 0.002 }), 'dry');
  });

  test('dry: less than a tenth of the room to the recorded level', () => {
    // 26.7 Pa of room.
    expectClear(shapes(line(1.5), {}, limitPa), 'dry');
    expectClear(shapes(line(5), { noiseRatio: 0.002 }, limitPa), 'leak');
  });

  test('leak: a line, also behind an equalisation', () => {
    expectClear(
      shapes((s) => 0.1 * s),
      'leak',
    );
    expectClear(
      shapes((s) => 0.1 * s + saturating(8, 18)(s)),
      'leak',
    );
    expectClear(
      shapes((s) => 0.1 * s, { stepPa: 1.33322368 }),
      'leak',
    );
  });

  test('moisture: it levels', () => {
    expectClear(shapes(saturating(30, 200)), 'moisture');
    expectClear(shapes(saturating(300, 400)), 'moisture');
  });

  test('mixed: it slackens, to a line', () => {
    expectClear(
      shapes((s) => 0.1 * s + saturating(60, 120)(s), { testS: 1800, noiseRatio: 0.002 }),
      'mixed',
    );
    expectClear(
      shapes((s) => 0.05 * s + saturating(60, 60)(s), { testS: 1800, noiseRatio: 0.002 }),
      'mixed',
    );
  });

  test('settling: it is over within a minute', () => {
    expectClear(shapes(saturating(8, 18)), 'settling');
    expectClear(shapes(saturating(8, 4)), 'settling');
  });

  test('absent: pumped until the log ends, or with marks and no isolation among them', () => {
    const log = () => new SyntheticLog({ noiseRatio: 0.005 }).hold(650_000, 20).pull(650_000, 300, 600);
    expect(facts(log().hold(300, 200).series()).rise_shape).toBe('absent');
    const marks = [{ elapsedS: 20, phase: 'pull-down' }];
    expect(facts(log().hold(300, 600).series(), { marks }).rise_shape).toBe('absent');
  });
});

describe('one that leaves it open does not', () => {
  test('dry or not: 10 µm, or a tenth of the room', () => {
    expectOpen(shapes(line(2.67), {}, limitPa));
    expectOpen(shapes(line(1.33)), 'dry');
  });

  test('leak or moisture: three minutes of noise', () => {
    expectOpen(shapes((s) => 0.05 * s, { testS: 180, noiseRatio: 0.015 }));
  });

  test('moisture or leak: a rise whose bend has hardly begun', () => {
    expectOpen(shapes(saturating(60, 2000), { testS: 400, noiseRatio: 0.01 }), 'moisture');
  });

  test('leak, moisture or both: as steady as a dead end, read with noise', () => {
    expectOpen(shapes((s) => 0.05 * s + saturating(30, 400)(s), { noiseRatio: 0.01 }));
  });

  test('a leak, or outgassing of a system that was pumped for 20 min', () => {
    expectOpen(shapes(outgassing(20, 1200), { testS: 600 }), 'moisture');
    expectOpen(
      shapes((s) => 0.02 * s + outgassing(20, 1200)(s), { noiseRatio: 0.01 }),
      'leak',
    );
  });

  test('settling, or a little that comes in behind it', () => {
    expectOpen(shapes((s) => saturating(8, 18)(s) + line(1.6)(s)));
  });

  test('absent, or shut off on a tight, dry system without any mark', () => {
    const log = new SyntheticLog({ noiseRatio: 0.005 }).hold(650_000, 20).pull(650_000, 300, 600).hold(300, 600);
    expect(facts(log.series()).rise_shape).toBe('undecided');
  });
});

test('too few readings after valve-off: undecided, and nothing else is said of the rise', () => {
  const found = facts(job({ intervalS: 2 }).series(0, 1228), { marks: [{ elapsedS: 1220, phase: 'isolation' }] });
  expect(found.isolation_start_s).toBeCloseTo(1220, 0);
  expect(found.rise_shape).toBe('undecided');
  expect(found).not.toHaveProperty('leak_pa_per_s');
});
