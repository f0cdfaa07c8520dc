import { describe, expect, test } from 'vitest';
import { evidenceLimits } from '../../src/steps/evidence-limits.ts';
import { evidenceTrace } from '../../src/steps/evidence-trace.ts';
import type { VacuumPhase } from '../../src/traces/vacuum-phases.ts';

describe('a thinned trace', () => {
  const series = (count: number) => ({
    gauge: null,
    elapsedS: Float64Array.from({ length: count }, (_, index) => index),
    vacuumPa: Float64Array.from({ length: count }, (_, index) =>
      index < 5 ? Number.POSITIVE_INFINITY : 1000 - index / 100,
    ),
  });
  const isolation = (fromIndex: number, toIndex: number): VacuumPhase => ({
    phase: 'isolation',
    startS: fromIndex,
    endS: toIndex,
    fromIndex,
    toIndex,
  });

  test('keeps a short isolation of a long log, in order, and readings above the range as such', () => {
    const { elapsedS, vacuumPa, over } = evidenceTrace(series(20_000), isolation(19_000, 19_299));
    const inside = elapsedS.filter((t) => t >= 19_000 && t <= 19_299);
    expect(inside.length).toBeGreaterThanOrEqual(199);
    expect(elapsedS.length).toBeLessThanOrEqual(602);
    expect(elapsedS).toEqual(elapsedS.toSorted((a, b) => a - b));
    expect([vacuumPa[0], over[0], over.at(-1)]).toEqual([null, true, false]);
  });

  test('keeps a log of few readings whole, with an isolation and without', () => {
    expect(evidenceTrace(series(500), isolation(100, 499)).elapsedS).toHaveLength(500);
    expect(evidenceTrace(series(500), isolation(0, 499)).elapsedS).toHaveLength(500);
    expect(evidenceTrace(series(500), undefined).elapsedS).toHaveLength(500);
  });

  test('gives a long isolation what the rest does not need', () => {
    const { elapsedS } = evidenceTrace(series(20_000), isolation(100, 19_999));
    expect(elapsedS.filter((t) => t < 100)).toHaveLength(100);
    expect(elapsedS.filter((t) => t >= 100).length).toBeGreaterThan(490);
  });
});

test('limits say when they count: at a time, at the end, or later than the isolation lasted', () => {
  const limits = (rise: Record<string, number | string>) =>
    evidenceLimits(
      new Map([
        ['target-not-reached', { target_pa: 66 }],
        ['rise-over-limit', { limit_pa: 40, isolation_pa: 30, isolation_s: 620, ...rise }],
      ]),
    );
  expect(limits({ limit_kind: 'level', judged_s: 600, asked_s: 600 })).toEqual([
    { label: 'target', pa: 66, of: 'pull-down' },
    { label: 'limit after 10 min', pa: 40, of: 'rise', countsAtS: 600 },
  ]);
  expect(limits({ limit_kind: 'rise', judged_s: 620, asked_s: 60 })[1]).toEqual({
    label: 'allowed after isolation',
    pa: 70,
    of: 'rise',
  });
  expect(limits({ limit_kind: 'level', judged_s: 620, asked_s: 1800 })[1]).toMatchObject({ countsAtS: 1800 });
  expect(evidenceLimits(new Map())).toEqual([]);
});
