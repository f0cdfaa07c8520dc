import { describe, expect, test } from 'vitest';
import { lossFacts } from '../../../src/facts/leak-loss.ts';
import { planAnswer } from '../../../src/facts/plan/plan-answer.ts';
import { type PlannedRiseTest, riseTestSight } from '../../../src/facts/plan/rise-test-sight.ts';
import { vacuumFacts } from '../../../src/facts/vacuum-facts.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import { MICRON_PA, SyntheticLog } from '../synthetic-log.ts';

/** A rise test in microns: from, step, noise, interval [s]; after half an hour of pumping. */
function planned(fromMicrons: number, stepMicrons: number, noiseRatio: number, intervalS: number): PlannedRiseTest {
  return {
    fromPa: fromMicrons * MICRON_PA,
    stepPa: stepMicrons * MICRON_PA,
    noiseRatio,
    intervalS,
    pumpedS: 1800,
  };
}

const job: Job = {
  job_id: 'J',
  started_at: '2026-03-05T14:30:00+01:00',
  refrigerant: 'R-410A',
  tested_volume_l: 5,
  vacuum_target_pa: 1000 * MICRON_PA,
};

/** Means over eight logs, drawn, of what the facts say that such a test of a tight, dry system would have seen. */
function factsOf({ fromPa, stepPa, noiseRatio, intervalS }: PlannedRiseTest, testS: number) {
  const fromMicrons = fromPa / MICRON_PA;
  const found = Array.from({ length: 8 }, (_, index) => {
    const log = new SyntheticLog({ noiseRatio, stepMicrons: stepPa / MICRON_PA, intervalS, seed: index + 1 })
      .pull(650_000, fromMicrons, 600)
      .hold(fromMicrons, 1200 + testS);
    const facts = vacuumFacts({
      job: { ...job, gauge_step_pa: stepPa },
      series: [log.series()],
      marks: [{ elapsedS: 1800, phase: 'isolation' }],
    });
    return { ...facts, ...lossFacts(facts, job) };
  });
  const mean = (of: (one: (typeof found)[number]) => number | undefined) =>
    found.reduce((sum, one) => sum + (of(one) ?? Number.NaN), 0) / found.length;
  return {
    rise: mean((facts) => facts.smallest_rise_seen_pa_per_s),
    leak: mean((facts) => facts.smallest_leak_seen_pa_per_s),
    lossLow: mean((facts) => facts.smallest_loss_low_kg_per_year),
    lossHigh: mean((facts) => facts.smallest_loss_high_kg_per_year),
  };
}

describe('a plan says what the facts of such a test would say', () => {
  // Measured over 12 drawn logs: climb −10 to 0 %, leak −14 to 0 %; the shorter, the farther below.
  test.each([
    [planned(200, 1, 0.01, 2), 600],
    [planned(200, 1, 0.01, 2), 3600],
    [planned(200, 1, 0.005, 1), 900],
    [planned(300, 5, 0.015, 3), 1800],
    [planned(500, 1, 0.01, 2), 14_400],
  ])('%j over %d s: a climb within 8 %%, a leak within 12 %%', (plan, testS) => {
    const [facts, sight] = [factsOf(plan, testS), riseTestSight(plan)(testS)];
    expect(Math.abs((sight?.risePaPerS ?? 0) / facts.rise - 1)).toBeLessThan(0.08);
    expect(Math.abs((sight?.leakPaPerS ?? 0) / facts.leak - 1)).toBeLessThan(0.12);
  });

  // Measured: climb 0 to +20 %, leak −8 to +50 %: nearly all readings are the same, and a few changes decide.
  test.each([
    [planned(100, 1, 0.003, 2), 900],
    [planned(300, 5, 0.005, 2), 1800],
    [planned(400, 10, 0.01, 5), 3600],
  ])('%j over %d s, a gauge quieter than its steps: at worst too much, by half', (plan, testS) => {
    const [facts, sight] = [factsOf(plan, testS), riseTestSight(plan)(testS)];
    for (const ratio of [(sight?.risePaPerS ?? 0) / facts.rise, (sight?.leakPaPerS ?? 0) / facts.leak]) {
      expect(ratio).toBeGreaterThan(0.9);
      expect(ratio).toBeLessThan(1.55);
    }
  });

  test('and what such a leak would lose', () => {
    const riseTest = planned(200, 1, 0.01, 2);
    const facts = factsOf(riseTest, 1800);
    const plan = { volumeL: 5, refrigerant: 'R-410A', atmospherePa: 101_325, riseTest };
    const [row] = planAnswer(plan, { durationsS: [1800] }).riseRows;
    expect(Math.abs((row.told?.lowKgPerYear ?? 0) / facts.lossLow - 1)).toBeLessThan(0.12);
    expect(Math.abs((row.told?.highKgPerYear ?? 0) / facts.lossHigh - 1)).toBeLessThan(0.12);
  });
});

describe('physical order', () => {
  const lengthsS = Array.from({ length: 120 }, (_, index) => Math.round(120 * 5040 ** (index / 119)));

  // Of a gauge quieter than its steps what is news falls a little as the means get more (measured: 3.9 %).
  test.each([
    [planned(200, 1, 0.01, 2), 1.005],
    [planned(1000, 10, 0.05, 30), 1.005],
    [planned(300, 5, 0.005, 5), 1.005],
    [planned(50, 1, 0, 1), 1.05],
    [planned(20, 1, 0.01, 2), 1.05],
  ])('%j: a longer test sees no less, from two minutes to seven days, to within %d', (plan, hair) => {
    const sightAt = riseTestSight(plan);
    const seen = lengthsS.flatMap((lengthS) => sightAt(lengthS) ?? []);
    expect(seen.length).toBeGreaterThan(90);
    let [leastRise, leastLeak] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (const { risePaPerS, leakPaPerS } of seen) {
      expect(risePaPerS).toBeLessThanOrEqual(hair * leastRise);
      expect(leakPaPerS).toBeLessThanOrEqual(hair * leastLeak);
      leastRise = Math.min(leastRise, risePaPerS);
      leastLeak = Math.min(leastLeak, leakPaPerS);
    }
  });

  test('a climb shows before it is told for a leak', () => {
    const sightAt = riseTestSight(planned(200, 1, 0.01, 2));
    for (const lengthS of lengthsS) {
      const { risePaPerS = 0, leakPaPerS = -1 } = sightAt(lengthS) ?? {};
      expect(risePaPerS).toBeLessThanOrEqual(leakPaPerS);
    }
  });

  test('more noise, coarser steps, a higher pressure and fewer readings see less', () => {
    const leak = (plan: PlannedRiseTest) => riseTestSight(plan)(900)?.leakPaPerS ?? Number.NaN;
    const usual = leak(planned(200, 1, 0.01, 2));
    for (const worse of [
      planned(200, 1, 0.02, 2),
      planned(200, 10, 0.01, 2),
      planned(400, 1, 0.01, 2),
      planned(200, 1, 0.01, 10),
    ])
      expect(leak(worse)).toBeGreaterThan(usual);
  });

  test('too few readings see nothing', () => {
    const sightAt = riseTestSight(planned(200, 1, 0.01, 60));
    expect(sightAt(300)).toBeUndefined();
    expect(sightAt(360)).toBeDefined();
  });
});
