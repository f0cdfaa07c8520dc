import { describe, expect, test } from 'vitest';
import type { VacuumMaterial } from '../../../src/facts/job-material.ts';
import type { Facts } from '../../../src/records/tables/facts.ts';
import { facts as factsTable } from '../../../src/records/tables/facts.ts';
import { referenceRows } from '../../reference-rows.ts';
import { MICRON_PA, SyntheticLog, type SyntheticLogOptions } from '../synthetic-log.ts';
import { atmosphere, facts } from '../vacuum-job.ts';
import { isolatedRise, outgassing, saturating, shareOf } from './isolated-rise.ts';

/** Down to 300 µm, held, isolated: 1220 s after the start, pumped for 1200 s by then. The rise is `at` [µm]. */
function isolated(at: (sinceS: number) => number, options: SyntheticLogOptions = {}, testS = 900): SyntheticLog {
  return new SyntheticLog({ noiseRatio: 0.005, ...options })
    .hold(atmosphere, 20)
    .pull(atmosphere, 300, 600)
    .hold(300, 600)
    .stretch(testS, at);
}

const inMicrons = (paPerS: number | undefined) => (paPerS ?? Number.NaN) / MICRON_PA;
const holds = ({ leak_low_pa_per_s: low, leak_high_pa_per_s: high }: Partial<Facts>, micronsPerS: number) =>
  inMicrons(low) <= micronsPerS && micronsPerS <= inMicrons(high);

test('reproduces 40 CFR 1065.644, worked example, from a logged isolation', () => {
  const [{ volume_m3, start_pa, end_pa, start_k, duration_s, leak_mol_per_s }] = referenceRows('40-cfr-1065-644');
  // R as the regulation has it.
  const molPerS = (paPerS: number | undefined) => ((paPerS ?? Number.NaN) * volume_m3) / (8.314472 * start_k);
  const at = (s: number) => start_pa + ((end_pa - start_pa) * s) / duration_s;
  for (const [intervalS, noiseRatio] of [
    [1, 0],
    [0.2, 0.0005],
    [1, 0.0005],
    [5, 0],
  ]) {
    const found = facts(isolatedRise(at, { testS: duration_s, intervalS, noiseRatio }));
    expect(Math.abs(molPerS(found.leak_pa_per_s) / leak_mol_per_s - 1)).toBeLessThan(0.001);
    expect(found.rise_model).toBe('leak');
  }
});

describe('intervals with the gauge', () => {
  const marked = (log: SyntheticLog, accuracy = 0.05): Partial<VacuumMaterial> => ({
    job: { vacuum_target_pa: 500 * MICRON_PA, gauge_accuracy_ratio: accuracy },
    marks: [{ elapsedS: log.nowS - 900, phase: 'isolation' }],
  });

  test.each([1, 5, 10])('read in steps of %d µm', (stepMicrons) => {
    for (const leak of [0.1, 0.5, 3]) {
      const held = shareOf(25, (seed) => {
        const log = isolated((s) => 300 + leak * s, { stepMicrons, seed });
        return holds(facts(log.series(), marked(log)), leak);
      });
      expect(held).toBeGreaterThanOrEqual(0.96);
    }
  });

  test('a gauge that reads 4 % too high or too low, and says that it may read 5 % so', () => {
    for (const gain of [0.96, 1.04])
      for (let seed = 1; seed <= 10; seed += 1) {
        const log = isolated((s) => 300 + 0.5 * s, { seed });
        const { elapsedS, vacuumPa } = log.series();
        const series = { gauge: null, elapsedS, vacuumPa: vacuumPa.map((pa) => gain * pa) };
        expect(holds(facts(series, marked(log)), 0.5)).toBe(true);
      }
  });

  test('a less accurate gauge widens them; the leak stays', () => {
    const log = isolated((s) => 300 + 0.5 * s);
    const [fine, coarse] = [0.02, 0.2].map((accuracy) => facts(log.series(), marked(log, accuracy)));
    expect(coarse.leak_pa_per_s).toBe(fine.leak_pa_per_s);
    expect(coarse.leak_low_pa_per_s).toBeLessThan(fine.leak_low_pa_per_s as number);
    expect(coarse.leak_high_pa_per_s).toBeGreaterThan(fine.leak_high_pa_per_s as number);
    expect([coarse.leak_rise_low_pa, coarse.leak_rise_high_pa]).toEqual([
      fine.leak_rise_low_pa,
      fine.leak_rise_high_pa,
    ]);
  });
});

describe('what a rise is made of', () => {
  test('a leak with the tail of a system that was pumped for 20 min: low is 0 or below the truth, high above', () => {
    for (const leak of [0.1, 0.4, 2])
      for (let seed = 1; seed <= 15; seed += 1) {
        const found = facts(isolated((s) => 300 + leak * s + outgassing(150, 1200)(s), { seed }).series());
        expect(holds(found, leak)).toBe(true);
      }
  });

  test.each([150, 500])(
    'outgassing alone, %d µm for each e-fold of the time, is not called a leak, and may be none',
    (size) => {
      const found = Array.from({ length: 30 }, (_, seed) =>
        facts(isolated((s) => 300 + outgassing(size, 1200)(s), { seed: seed + 1 }).series()),
      );
      expect(found.map(({ rise_shape }) => rise_shape)).not.toContain('leak');
      expect(found.filter(({ leak_low_pa_per_s: low }) => low === 0).length).toBeGreaterThanOrEqual(28);
    },
  );

  test('parts add up to the rise, and the plateau of moisture is found', () => {
    const found = facts(isolated((s) => 300 + saturating(800, 200)(s)).series());
    expect(found).toMatchObject({ rise_shape: 'moisture', rise_model: 'saturating', leak_pa_per_s: 0 });
    const sum = (found.leak_rise_pa ?? 0) + (found.vapour_rise_pa ?? 0) + (found.settling_rise_pa ?? 0);
    expect(Math.abs(sum / (found.rise_pa ?? 0) - 1)).toBeLessThan(0.02);
    expect(Math.abs((found.rise_time_constant_s ?? 0) / 200 - 1)).toBeLessThan(0.05);
    expect(inMicrons(found.plateau_pa)).toBeCloseTo(1100, -1.5);
    expect(inMicrons(found.plateau_low_pa)).toBeLessThan(1100);
    expect(inMicrons(found.plateau_high_pa)).toBeGreaterThan(1100);
    expect(factsTable.schema.safeParse({ job_id: 'j1', ...found }).success).toBe(true);
  });

  test('a jump within seconds of valve-off is told from what comes in', () => {
    const found = facts(isolated((s) => 300 + saturating(150, 4)(s) + 0.05 * s).series());
    expect(inMicrons(found.settling_rise_pa)).toBeGreaterThan(120);
    expect(inMicrons(found.settling_rise_pa)).toBeLessThan(180);
    expect(inMicrons(found.isolation_jump_pa)).toBeGreaterThan(100);
    expect(inMicrons(found.isolation_jump_pa)).toBeLessThanOrEqual(inMicrons(found.settling_rise_pa));
    expect(holds(found, 0.05)).toBe(true);
    expect(facts(isolated((s) => 300 + 0.5 * s).series()).isolation_jump_pa).toBe(0);
  });
  test('the leak rise lies in its own interval', () => {
    for (let seed = 1; seed <= 100; seed += 1) {
      const found = facts(isolated((s) => 300 + 1.5 * s + saturating(220, 60)(s), { noiseRatio: 0.01, seed }).series());
      expect(found.leak_rise_pa).toBeLessThanOrEqual(found.leak_rise_high_pa as number);
      expect(found.leak_rise_pa).toBeGreaterThanOrEqual(found.leak_rise_low_pa as number);
    }
  });
  test('a gauge that showed 0 before valve-off, below its step', () => {
    const log = new SyntheticLog({ stepMicrons: 10 }).hold(atmosphere, 20).pull(atmosphere, 4, 600).hold(4, 600);
    const found = facts(log.rise(40, 0.5, 600).series());
    expect(holds(found, 0.5)).toBe(true);
  });

  test('the same gauge, a step higher', () => {
    const log = new SyntheticLog({ stepMicrons: 10 }).hold(atmosphere, 20).pull(atmosphere, 14, 600).hold(14, 600);
    const found = facts(log.rise(40, 0.5, 600).series());
    expect(holds(found, 0.5)).toBe(true);
    expect(found.rise_shape).toBe('leak');
  });
});

describe('what does not matter', () => {
  const line = (s: number) => 300 + 0.5 * s;
  const plain = facts(isolated(line).series());

  test('spikes', () => {
    const { elapsedS, vacuumPa } = isolated(line).series();
    const series = {
      gauge: null,
      elapsedS,
      vacuumPa: vacuumPa.map((pa, i) => (i > 620 && i % 60 === 7 ? 5 * pa : pa)),
    };
    const found = facts(series);
    expect(found.rise_shape).toBe(plain.rise_shape);
    expect(Math.abs((found.leak_pa_per_s ?? 0) / (plain.leak_pa_per_s ?? 0) - 1)).toBeLessThan(0.01);
  });

  test('gaps', () => {
    const { elapsedS, vacuumPa } = isolated(line).series();
    const kept = [...elapsedS.keys()].filter((i) => elapsedS[i] < 1400 || elapsedS[i] > 1560);
    const found = facts({
      gauge: null,
      elapsedS: Float64Array.from(kept, (i) => elapsedS[i]),
      vacuumPa: Float64Array.from(kept, (i) => vacuumPa[i]),
    });
    expect(Math.abs((found.leak_pa_per_s ?? 0) / (plain.leak_pa_per_s ?? 0) - 1)).toBeLessThan(0.01);
  });

  test('an end over range: what came before it counts', () => {
    const found = facts(isolated((s) => 300 + 50 * s, { rangeMicrons: 20_000 }).series());
    expect(found.rise_shape).toBe('leak');
    expect(Math.abs(inMicrons(found.leak_pa_per_s) / 50 - 1)).toBeLessThan(0.01);
    expect(holds(found, 50)).toBe(true);
  });

  test.each([0.2, 1, 5, 10, 30])('read every %d s', (intervalS) => {
    const found = facts(isolated(line, { intervalS }).series());
    expect(Math.abs(inMicrons(found.leak_pa_per_s) / 0.5 - 1)).toBeLessThan(0.02);
    expect(holds(found, 0.5)).toBe(true);
    expect(found.rise_shape).toBe('leak');
  });
});
