import { describe, expect, test } from 'vitest';
import { leakLoss, lossFacts } from '../../src/facts/leak-loss.ts';
import type { TestedVolume } from '../../src/facts/tested-volume.ts';
import { yearlyLoss } from '../../src/physics/index.ts';
import { referenceRows } from '../reference-rows.ts';
import { MICRON_PA } from './synthetic-log.ts';

const exactly = (volumeL: number): TestedVolume => ({ volumeL, lowL: volumeL, highL: volumeL, basis: 'tested' });

describe('leakLoss', () => {
  test('reproduces ×289 and ×8.64 for R-410A saturated at 70 °F, table leak-at-pressure, within 0.5 %', () => {
    const [row] = referenceRows('leak-at-pressure');
    const loss = leakLoss(1, exactly(1000), 'R-410A');
    // As much pV of the refrigerant as of air in the vacuum test, in mass.
    const once = yearlyLoss(1, 294.26, 0.072585);
    expect(Math.abs((loss?.highKgPerYear ?? 0) / once / row.most - 1)).toBeLessThan(0.005);
    expect(Math.abs((loss?.lowKgPerYear ?? 0) / once / row.least - 1)).toBeLessThan(0.005);
  });

  test('5 L rising 1 µm a minute stand for up to some 3 kg of R-410A a year', () => {
    const loss = leakLoss(MICRON_PA / 60, exactly(5), 'R-410A');
    expect(loss?.highKgPerYear).toBeGreaterThan(2.9);
    expect(loss?.highKgPerYear).toBeLessThan(3.1);
    expect(loss?.lowKgPerYear).toBeGreaterThan(0.05);
    expect(loss?.lowKgPerYear).toBeLessThan(0.15);
  });

  test('the spread of the volume widens the band', () => {
    const [narrow, wide] = [
      leakLoss(0.01, exactly(5), 'R-32'),
      leakLoss(0.01, { volumeL: 5, lowL: 4, highL: 7, basis: 'estimated' }, 'R-32'),
    ];
    expect(wide?.lowKgPerYear).toBeCloseTo(0.8 * (narrow?.lowKgPerYear ?? 0), 12);
    expect(wide?.highKgPerYear).toBeCloseTo(1.4 * (narrow?.highKgPerYear ?? 0), 12);
  });

  test('more pressure behind it, or less atmosphere in the test, means more', () => {
    const high = (refrigerant: string, atmospherePa?: number) =>
      leakLoss(0.01, exactly(5), refrigerant, atmospherePa)?.highKgPerYear ?? 0;
    expect(high('R-134a')).toBeLessThan(high('R-407C'));
    expect(high('R-407C')).toBeLessThan(high('R-410A'));
    expect(high('R-410A', 83_000)).toBeGreaterThan(high('R-410A'));
  });

  test('no leak loses nothing; unknown volume or refrigerant: undefined', () => {
    const nothing = { lowKgPerYear: 0, highKgPerYear: 0 };
    expect(leakLoss(0, exactly(5), 'R-410A')).toEqual(nothing);
    expect(leakLoss(-1, exactly(5), 'R-410A')).toEqual(nothing);
    expect(leakLoss(1, undefined, 'R-410A')).toBeUndefined();
    expect(leakLoss(1, exactly(5), undefined)).toBeUndefined();
    expect(leakLoss(1, exactly(5), 'R-9999')).toBeUndefined();
    expect(leakLoss(Number.NaN, exactly(5), 'R-410A')).toBeUndefined();
  });
});

describe('lossFacts', () => {
  const perMinute = MICRON_PA / 60;
  const facts = {
    tested_volume_l: 5,
    tested_volume_low_l: 4.5,
    tested_volume_high_l: 5.5,
    tested_volume_basis: 'tested' as const,
    leak_low_pa_per_s: perMinute,
    leak_high_pa_per_s: 3 * perMinute,
    smallest_leak_seen_pa_per_s: 2 * perMinute,
  };
  const job = { job_id: 'j', started_at: '2025-01-01T08:00:00Z', refrigerant: 'R-410A' };

  test('the band reaches from what the least leak would lose at least to what the most would at most', () => {
    const found = lossFacts(facts, job);
    const volume = { volumeL: 5, lowL: 4.5, highL: 5.5, basis: 'tested' as const };
    const once = leakLoss(perMinute, volume, 'R-410A');
    expect(found.leak_loss_low_kg_per_year).toBeCloseTo(once?.lowKgPerYear ?? Number.NaN, 9);
    expect(found.leak_loss_high_kg_per_year).toBeCloseTo(3 * (once?.highKgPerYear ?? Number.NaN), 9);
    expect(found.smallest_loss_low_kg_per_year).toBeCloseTo(2 * (once?.lowKgPerYear ?? Number.NaN), 9);
  });

  test('nothing without a fit, a volume or a refrigerant', () => {
    expect(lossFacts({ ...facts, leak_low_pa_per_s: undefined }, job)).toEqual({});
    expect(lossFacts({ ...facts, tested_volume_l: undefined }, job)).toEqual({});
    expect(lossFacts(facts, { ...job, refrigerant: undefined })).toEqual({});
    expect(lossFacts(facts, undefined)).toEqual({});
  });
});
