import { describe, expect, test } from 'vitest';
import { type MakeUp, partOf } from '../../../src/facts/rise/make-up.ts';
import { plateau } from '../../../src/facts/rise/plateau.ts';
import { dropAt95 } from '../../../src/facts/rise/rise-profile.ts';
import type { VacuumSeries } from '../../../src/traces/vacuum-series.ts';
import { referenceCells } from '../../reference-rows.ts';
import { fitted } from './isolated-rise.ts';

const points = referenceCells('scipy-rise-fits', 'curves.csv');
const rows = referenceCells('scipy-rise-fits').map(({ curve, ...cells }) => ({
  curve,
  ...(Object.fromEntries(Object.entries(cells).map(([name, cell]) => [name, Number(cell)])) as Record<
    'p0_pa' | 'leak_pa_per_s' | 'amplitude_pa' | 'time_constant_s' | 'plateau_low_pa' | 'plateau_high_pa',
    number
  >),
}));

const seriesOf = (curve: string): VacuumSeries => {
  const own = points.filter((point) => point.curve === curve);
  return {
    gauge: null,
    elapsedS: Float64Array.from(own, ({ since_s }) => Number(since_s)),
    vacuumPa: Float64Array.from(own, ({ vacuum_pa }) => Number(vacuum_pa)),
  };
};

/** Whether one part that saturates is all beside a leak. */
const isAlone = ({ parts }: MakeUp) => parts.length === 1 && parts[0].part === 'saturating';

describe.each(rows)('reproduces SciPy, p₀ + k·t + A·(1 − exp(−t/τ)), $curve', (row) => {
  const { samples, makeUp, leakPaPerS } = fitted(seriesOf(row.curve));
  const found = partOf(makeUp, 'saturating');
  const levelPa = row.p0_pa + row.amplitude_pa;

  test('k, A and τ, where the same parts are chosen', () => {
    expect(leakPaPerS > 0).toBe(row.leak_pa_per_s > 0);
    // Means of neighbours instead of single readings, and a grid of time constants. Measured: k 1 %, A 0.3 %, τ 3.9 %.
    expect(Math.abs(leakPaPerS - row.leak_pa_per_s)).toBeLessThanOrEqual(0.015 * row.leak_pa_per_s);
    if (!isAlone(makeUp)) return;
    expect(Math.abs((found?.size ?? 0) / row.amplitude_pa - 1)).toBeLessThan(0.005);
    expect(Math.abs((found?.timeS ?? 0) / row.time_constant_s - 1)).toBeLessThan(0.045);
  });

  test('the plateau at the same time constant', () => {
    const saturating = { part: 'saturating', timeS: row.time_constant_s, size: 1 } as const;
    const same = plateau(samples, { leakPaPerS: row.leak_pa_per_s, parts: [saturating] }, 1);
    // Measured: 0.11 %; from there the time constant is let go to its own best, on means.
    expect(Math.abs((same?.pa ?? 0) / levelPa - 1)).toBeLessThan(0.0014);
  });
});

test('the same parts are chosen for all but one at most', () => {
  const alone = rows.filter(({ curve }) => isAlone(fitted(seriesOf(curve)).makeUp));
  expect(alone.length).toBeGreaterThanOrEqual(rows.length - 1);
});
test('reproduces SciPy, the intervals of the plateaus', () => {
  for (const row of rows) {
    const { samples, makeUp } = fitted(seriesOf(row.curve));
    // SciPy was told the noise; here it is taken from the readings.
    const scale = (3.84 / dropAt95) * (0.005 / samples.noiseRatio) ** 2;
    const { lowPa = 0, highPa = 0 } = plateau(samples, makeUp, scale) ?? {};
    const width = row.plateau_high_pa - row.plateau_low_pa;
    expect(Math.abs(lowPa - row.plateau_low_pa)).toBeLessThan(0.25 * width);
    expect(Math.abs(highPa - row.plateau_high_pa)).toBeLessThan(0.25 * width);
  }
});
