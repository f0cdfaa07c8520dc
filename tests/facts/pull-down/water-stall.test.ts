import { describe, expect, test } from 'vitest';
import type { VacuumMaterial } from '../../../src/facts/job-material.ts';
import { lastPull } from '../../../src/facts/pull-down/last-pull.ts';
import { pullDownProfile } from '../../../src/facts/pull-down/pull-down-profile.ts';
import { waterStall } from '../../../src/facts/pull-down/water-stall.ts';
import type { Facts } from '../../../src/records/tables/facts.ts';
import { findVacuumPhases } from '../../../src/traces/vacuum-phases.ts';
import type { VacuumSeries } from '../../../src/traces/vacuum-series.ts';
import { simulatePull } from './simulated-pull.ts';
import { MICRON_PA, SyntheticLog, type SyntheticLogOptions } from '../synthetic-log.ts';

/** Water boils at 18 790 µm at 70 °F, freezes at 4 588 µm (tables water-by-temperature, water-by-microns). */
const line = { meanK: 294.2611, lowK: 294 };
const boils = 18_000;
const freezes = 4_588;
const clamp = { line, gauge: { gauge_id: 'g', kind: 'capacitance', accuracy_ratio: 0.1 } } as const;

function stall(series: VacuumSeries, material: Pick<VacuumMaterial, 'job' | 'gauge' | 'line'> = clamp): Partial<Facts> {
  const pull = lastPull(findVacuumPhases(series, 500 * MICRON_PA).phases);
  return pull === undefined ? {} : waterStall(series, pull, pullDownProfile(series, pull), material);
}

/** Down to a pressure, there for a while, and on [µm, s]: it stands from 80 s on. */
function standing(microns: number, durationS: number, options: SyntheticLogOptions = {}): SyntheticLog {
  return new SyntheticLog({ intervalS: 1, noiseRatio: 0.006, ...options })
    .hold(700_000, 20)
    .stretch(60, (s) => microns + (700_000 - microns) * Math.exp(-s / 8))
    .hold(microns, durationS)
    .stretch(500, (s) => 100 + (microns - 100) * Math.exp(-s / 15));
}

describe('a stall', () => {
  test('at the vapour pressure of the pipe is found where it was drawn', () => {
    const found = stall(standing(boils, 120).series());
    expect(found.stall_at).toBe('vapour');
    expect(Math.abs((found.stall_pa ?? 0) / MICRON_PA - boils)).toBeLessThan(0.02 * boils);
    // The fall towards it takes eight seconds for each factor e.
    expect(Math.abs((found.stall_s ?? 0) - 140)).toBeLessThan(20);
    expect(Math.abs((found.stall_start_s ?? 0) + (found.stall_s ?? 0) - 200)).toBeLessThan(4);
  });

  test('at the triple point is ice, unless the pipe is as cold', () => {
    const series = standing(freezes, 120).series();
    expect(stall(series).stall_at).toBe('ice');
    expect(stall(series, { ...clamp, line: { meanK: 274, lowK: 273.5 } }).stall_at).toBe('vapour');
    expect(stall(series, { ...clamp, job: { gauge_position: 'pump' } }).stall_at).toBe('vapour');
  });

  test('above the vapour pressure of the pipe, or far below, is none of water', () => {
    const cold = { meanK: 283.15, lowK: 283 };
    expect(stall(standing(boils, 120).series(), { ...clamp, line: cold })).toEqual({});
    expect(stall(standing(3000, 120).series())).toEqual({});
  });

  test('on a gauge that tells pressure by conduction of heat it may read twice as high', () => {
    const cold = { meanK: 283.15, lowK: 283 };
    const thermal = { gauge: { gauge_id: 'g', kind: 'thermal', accuracy_ratio: 0.1 }, line: cold } as const;
    expect(stall(standing(boils, 120).series(), thermal).stall_at).toBe('vapour');
  });

  test('without a pipe temperature only the triple point is named', () => {
    expect(stall(standing(freezes, 120).series(), {}).stall_at).toBe('ice');
    const unnamed = stall(standing(boils, 120).series(), {});
    expect(unnamed.stall_s).toBeGreaterThan(100);
    expect(unnamed).not.toHaveProperty('stall_at');
    const unconnected = { line: { meanK: Number.NaN, lowK: Number.NaN } };
    expect(stall(standing(boils, 120).series(), unconnected)).toEqual(unnamed);
  });

  test('just within the range of the gauge is found, above it not', () => {
    expect(stall(standing(boils, 120, { rangeMicrons: 18_500 }).series()).stall_at).toBe('vapour');
    expect(stall(standing(boils, 120, { rangeMicrons: 12_000 }).series())).toEqual({});
  });

  test('of two the longer counts', () => {
    const series = new SyntheticLog({ intervalS: 1, noiseRatio: 0.006 })
      .hold(700_000, 20)
      .stretch(60, (s) => boils + (700_000 - boils) * Math.exp(-s / 8))
      .hold(boils, 60)
      .stretch(60, (s) => freezes + (boils - freezes) * Math.exp(-s / 8))
      .hold(freezes, 200)
      .stretch(400, (s) => 100 + (freezes - 100) * Math.exp(-s / 15))
      .series();
    expect(stall(series).stall_at).toBe('ice');
  });
});

describe('no stall', () => {
  test('is a stand shorter than 20 s, one to the end of the pumping, or one in a gap', () => {
    const short = new SyntheticLog({ intervalS: 1, noiseRatio: 0.006 })
      .hold(700_000, 20)
      .stretch(12, (s) => boils + (700_000 - boils) * Math.exp(-s / 2))
      .hold(boils, 8)
      .stretch(500, (s) => 100 + (boils - 100) * Math.exp(-s / 15));
    expect(stall(short.series())).toEqual({});
    expect(stall(standing(boils, 900).series(0, 900))).toEqual({});
    const gap = new SyntheticLog({ intervalS: 1, noiseRatio: 0.006 })
      .hold(700_000, 20)
      .stretch(60, (s) => boils + (700_000 - boils) * Math.exp(-s / 8))
      .gap(120)
      .stretch(500, (s) => 100 + (boils - 100) * Math.exp(-s / 15));
    expect(stall(gap.series())).toEqual({});
  });

  test('is a valve shut for a while with the pressure rising', () => {
    const series = new SyntheticLog({ intervalS: 1, noiseRatio: 0.003 })
      .hold(700_000, 20)
      .stretch(60, (s) => 10_000 + 690_000 * Math.exp(-s / 8))
      .rise(10_000, 10, 60)
      .stretch(500, (s) => 100 + 10_500 * Math.exp(-s / 15))
      .series();
    expect(stall(series)).toEqual({});
  });

  test('is a choking hose, nor the tail near the target', () => {
    // Laminar flow through a hose: dp/dt goes with p², so that p falls as 1/t, ever slower.
    const choking = new SyntheticLog({ intervalS: 1, noiseRatio: 0.01 })
      .hold(700_000, 20)
      .stretch(1800, (s) => 60 + 1 / (1 / 700_000 + s / 600_000));
    expect(stall(choking.series())).toEqual({});
    expect(stall(choking.series(), { line: { meanK: 253.15, lowK: 253 } })).toEqual({});
  });

  test('is a leak that holds the pressure', () => {
    const series = new SyntheticLog({ intervalS: 1, noiseRatio: 0.006 })
      .hold(700_000, 20)
      .stretch(900, (s) => boils + (700_000 - boils) * Math.exp(-s / 20));
    expect(stall(series.series())).toEqual({});
  });
});

describe('of 200 simulated pulls', () => {
  test('with standing water at least nine tenths of the stalls that show are found, and their ends within 5 s', () => {
    let shown = 0;
    let found = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const { series, material, boiledS, goneS, share, stoodPa } = simulatePull(seed, true);
      if (boiledS < 25 || (share < 0.2 && stoodPa < 611)) continue;
      shown += 1;
      const { stall_start_s: startS = 0, stall_s: lastsS = 0 } = stall(series, material);
      if (lastsS > 0 && Math.abs(startS + lastsS - goneS) < 5) found += 1;
    }
    expect(shown).toBeGreaterThan(100);
    expect(found / shown).toBeGreaterThan(0.9);
  });

  test('without standing water none shows a stall', () => {
    const invented = Array.from({ length: 200 }, (_, seed) => simulatePull(seed + 1, false)).filter(
      ({ series, material }) => stall(series, material).stall_s !== undefined,
    );
    expect(invented).toHaveLength(0);
  });

  test('with damp walls, or a leak that any hand would hear, none shows a stall either', () => {
    for (const more of [{ wallWaterPa: 1200, wallDryingS: 1500 }, { leakPaPerS: 30 }]) {
      const invented = Array.from({ length: 100 }, (_, seed) => simulatePull(seed + 1, false, more)).filter(
        ({ series, material }) => stall(series, material).stall_s !== undefined,
      );
      expect(invented).toHaveLength(0);
    }
  });
});
