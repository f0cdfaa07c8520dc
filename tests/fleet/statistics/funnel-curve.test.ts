import { describe, expect, test } from 'vitest';
import { funnelCurve, funnelGrid, type FunnelPoint } from '../../../src/fleet/statistics/funnel-curve.ts';
import { funnelLimits } from '../../../src/fleet/statistics/funnel-limits.ts';
import { referenceRows } from '../../reference-rows.ts';

const names = ['low95', 'high95', 'low998', 'high998'] as const;

/** The curve where so many are expected, straight between two steps over the logarithm. */
function curveAt(curve: readonly FunnelPoint[], expected: number): Record<(typeof names)[number], number> {
  const place = Math.log(expected / funnelGrid.least) / Math.log(funnelGrid.factor);
  const [before, after] = [0, 1].map((on) => curve.find(({ step }) => step === Math.floor(place) + on));
  if (before === undefined || after === undefined) throw new Error('not on the curve');
  const along = place - Math.floor(place);
  const [low95, high95, low998, high998] = names.map((name) => before[name] + along * (after[name] - before[name]));
  return { low95, high95, low998, high998 };
}

const over = 208 / 2814;

test.each(referenceRows('openbugs-surgical', 'limits.csv'))(
  'passes within 0.03 of the published limits over the share, $operations operations',
  (row) => {
    const at = curveAt(funnelCurve(over, 100), row.operations * over);
    for (const name of names) expect(Math.abs(at[name] - row[name] / over)).toBeLessThan(0.03);
  },
);

describe.each([0.02, 0.07, 0.2, 0.5, 0.8])('where the chance is %f', (chance) => {
  const curve = funnelCurve(chance, 200);

  test('the curve is as close to the limits of whole jobs as is said', () => {
    let seen = 0;
    for (let jobs = 2; jobs * chance < 190; jobs = Math.ceil(jobs * 1.02)) {
      const expected = jobs * chance;
      if (expected < 1.2 * Math.max(funnelGrid.least, chance)) continue;
      const within = expected < 3 ? 0.1 : expected < 10 ? 0.05 : 0.012;
      const [at, exact] = [curveAt(curve, expected), funnelLimits(chance, jobs)];
      for (const name of names) expect(Math.abs(at[name] - exact[name] / chance)).toBeLessThan(within);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(50);
  });

  test('it begins with a job, goes up to what was asked, and nothing passes all jobs', () => {
    expect(curve[0]?.expected).toBeGreaterThanOrEqual(chance);
    expect(curve[0]?.expected).toBeLessThanOrEqual(Math.max(funnelGrid.least, chance) * funnelGrid.factor);
    expect(curve.at(-1)?.expected).toBeGreaterThanOrEqual(200);
    expect(curve.at(-2)?.expected).toBeLessThan(200);
    for (const { low95, high95, low998, high998 } of curve) {
      expect(low998).toBeLessThanOrEqual(low95);
      expect(low95).toBeLessThan(1);
      expect(high95).toBeLessThanOrEqual(high998);
      expect(high998).toBeLessThanOrEqual(1 / chance);
    }
  });
});
