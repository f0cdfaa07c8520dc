import { expect, test } from 'vitest';
import { knownSaturation } from '../../src/facts/known-saturation.ts';
import { runEvidence } from '../../src/steps/run-evidence.ts';
import type { RunSeries } from '../../src/traces/run-series.ts';

const count = 800;
const elapsedS = Float64Array.from({ length: count }, (_, index) => 5000 + 2 * index);
const steady = (value: number) => new Float64Array(count).fill(value);
const series: RunSeries = {
  elapsedS,
  columns: {
    suction_pa: steady(900_000),
    liquid_pa: steady(2_400_000),
    suction_line_c: steady(11),
    liquid_line_c: steady(34),
  },
};
const record = { refrigerant: 'R-410A', atmospherePa: 101_325 };
const facts = { run_start_s: 5100, steady_start_s: 5600, steady_end_s: 6500 };
const isUnread = (curve: readonly (number | null)[] | undefined) => curve?.every((k) => k === null);

test('dew and bubble point follow the pressures, times count from the first reading', () => {
  const evidence = runEvidence(series, facts, record);
  const curve = knownSaturation('R-410A');
  expect(evidence?.trace.dewK[0]).toBeCloseTo(curve?.dewK(900_000) ?? 0, 3);
  expect(evidence?.trace.bubbleK[0]).toBeCloseTo(curve?.bubbleK(2_400_000) ?? 0, 3);
  expect([evidence?.trace.suctionLineK[0], evidence?.trace.liquidLineK[0]]).toEqual([284.15, 307.15]);
  expect([evidence?.startS, evidence?.steady]).toEqual([100, { startS: 600, endS: 1500 }]);
  expect(evidence?.trace.elapsedS[0]).toBe(0);
});

test('a long run is thinned to some 300 readings, and its dip stays', () => {
  const dipped = steady(900_000);
  dipped[333] = 500_000;
  const noisy = steady(11).map((c, row) => c + (row % 7) / 10);
  const columns = { ...series.columns, suction_pa: dipped, suction_line_c: noisy };
  const trace = runEvidence({ ...series, columns }, facts, record)?.trace;
  expect(trace?.elapsedS.length).toBeLessThanOrEqual(300);
  expect(trace?.elapsedS).toContain(666);
  expect(Math.min(...(trace?.dewK ?? []).map(Number))).toBeCloseTo(knownSaturation('R-410A')?.dewK(500_000) ?? 0, 3);
});

test('where the liquid line carries two phases, its side is left out', () => {
  const evidence = runEvidence(series, { ...facts, liquid_line_phase: 'two-phase' }, record);
  expect([isUnread(evidence?.trace.bubbleK), isUnread(evidence?.trace.liquidLineK)]).toEqual([true, true]);
  expect([isUnread(evidence?.trace.dewK), evidence?.isTwoPhase]).toEqual([false, true]);
});

test('an unknown refrigerant has lines and no saturation, and without lines there is nothing', () => {
  const unknown = runEvidence(series, facts, { ...record, refrigerant: 'R-0' })?.trace;
  expect([isUnread(unknown?.dewK), isUnread(unknown?.bubbleK)]).toEqual([true, true]);
  expect(isUnread(unknown?.suctionLineK)).toBe(false);
  const { suction_pa, liquid_pa } = series.columns;
  const pressures = { ...series, columns: { suction_pa, liquid_pa } };
  expect(runEvidence(pressures, facts, { atmospherePa: 101_325 })).toBeNull();
});

test('a clamp that reads on rows of its own lasts for half a minute', () => {
  const sparse = new Float64Array(count).fill(Number.NaN);
  sparse[0] = 11;
  const alone: RunSeries = { elapsedS, columns: { suction_line_c: sparse } };
  const read = runEvidence(alone, {}, record)?.trace;
  expect(read?.suctionLineK.every((k) => k === 284.15)).toBe(true);
  expect(read?.elapsedS.at(-1)).toBeLessThanOrEqual(30);
});

test('superheat needs its interval and both means', () => {
  const gap = { superheat_k: 6, superheat_low_k: 5, superheat_high_k: 7, run_dew_k: 278, run_suction_line_k: 284 };
  const evidence = runEvidence(series, { ...facts, ...gap }, record);
  expect(evidence?.superheat).toEqual({ k: 6, lowK: 5, highK: 7, saturationK: 278, lineK: 284 });
  expect([evidence?.subcooling, evidence?.means?.dewK, evidence?.means?.liquidPa]).toEqual([null, 278, null]);
  const { run_dew_k: _, ...without } = gap;
  expect(runEvidence(series, { ...facts, ...without }, record)?.superheat).toBeNull();
  expect(runEvidence(series, {}, record)).toMatchObject({ startS: null, steady: null, means: null });
});

const bothGaps = {
  ...facts,
  superheat_k: 6,
  superheat_low_k: 5,
  superheat_high_k: 7,
  run_dew_k: 278,
  run_suction_line_k: 284,
  subcooling_k: 5,
  subcooling_low_k: 4,
  subcooling_high_k: 6,
  run_bubble_k: 315,
  run_liquid_line_k: 310,
};

test('the saturation curve goes from below the coldest to above the warmest of what was steady', () => {
  const drawn = runEvidence(series, bothGaps, record)?.curve ?? [];
  const own = knownSaturation('R-410A');
  expect(drawn).toHaveLength(25);
  expect(drawn[0]?.temperatureK).toBeCloseTo(278 - 0.12 * 37, 6);
  expect(drawn.at(-1)?.temperatureK).toBeCloseTo(315 + 0.12 * 37, 6);
  for (const { temperatureK, dewPa, bubblePa } of drawn) {
    expect(own?.dewK(dewPa)).toBeCloseTo(temperatureK, 4);
    expect(own?.bubbleK(bubblePa)).toBeCloseTo(temperatureK, 4);
    expect(bubblePa).toBeGreaterThan(dewPa);
  }
});

test('the curve ends where the table does, and is not there for what is not known or not steady', () => {
  const nearEnd = { ...bothGaps, run_bubble_k: 341, run_liquid_line_k: 336 };
  const cut = runEvidence(series, nearEnd, record)?.curve ?? [];
  expect(cut.length).toBeGreaterThan(2);
  expect(cut.length).toBeLessThan(25);
  expect(runEvidence(series, bothGaps, { ...record, refrigerant: 'R-0' })?.curve).toBeNull();
  expect(runEvidence(series, facts, record)?.curve).toBeNull();
});
