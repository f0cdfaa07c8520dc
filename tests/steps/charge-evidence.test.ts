import { expect, test } from 'vitest';
import { scaleFacts } from '../../src/facts/charge/scale-facts.ts';
import { chargeEvidence } from '../../src/steps/charge-evidence.ts';
import type { ScaleSeries } from '../../src/traces/scale-series.ts';

/** A reading a second from 1000 s on, to the gram, of a cylinder of 10 kg. */
function series(lengthS: number, kgAt: (t: number) => number): ScaleSeries {
  const elapsedS = Float64Array.from({ length: lengthS }, (_, index) => 1000 + index);
  return { elapsedS, scaleKg: elapsedS.map((atS) => Math.round(1000 * kgAt(atS - 1000)) / 1000) };
}

/** 0.3 kg at 2 g/s from 60 s on. */
const flowed = (t: number) => Math.min(0.3, Math.max(0, 0.002 * (t - 60)));

const evidenceOf = (weighed: ScaleSeries, more = {}) =>
  chargeEvidence(weighed, { ...scaleFacts(weighed, 0.001), ...more }, 0.001);

test('masses count from the stand before, times from the first reading', () => {
  const { read, corrected, flow, beforeKg, moves } = evidenceOf(series(300, (t) => 10 - flowed(t)));
  expect([read.elapsedS[0], read.drawnKg[0], beforeKg]).toEqual([0, 0, 10]);
  expect(corrected.drawnKg.at(-1)).toBe(0.3);
  expect(flow?.kg).toBeCloseTo(0.3, 6);
  expect([flow?.before.startS, flow?.after.endS]).toEqual([0, 299]);
  expect(flow?.startS).toBeCloseTo(60, -1);
  expect(moves).toEqual([]);
});

test('zeroing shifts the readings and not what is left of them', () => {
  const { read, corrected, flow, moves } = evidenceOf(series(300, (t) => (t < 30 ? 10 : 0) - flowed(t)));
  expect(Math.max(...read.drawnKg)).toBe(10.3);
  expect(Math.max(...corrected.drawnKg)).toBeCloseTo(0.3, 6);
  expect(flow?.kg).toBeCloseTo(0.3, 6);
  expect(moves).toMatchObject([{ startS: 29, endS: 30, shiftKg: -10, isFlow: false }]);
});

test('a bump comes back, and what the charge was judged by is told only where it is another mass', () => {
  const bumped = series(300, (t) => 10 - flowed(t) + (t > 240 && t < 246 ? 0.5 : 0));
  const { moves, counted } = evidenceOf(bumped, { drawn_kg: 0.302 });
  expect(moves).toMatchObject([{ shiftKg: 0, asideKg: 0.5, isFlow: false }]);
  expect(counted).toBeNull();
  expect(evidenceOf(bumped, { drawn_kg: 0.25, charged_from: 'record' }).counted).toEqual({ kg: 0.25, isScale: false });
  expect(evidenceOf(bumped, { drawn_kg: 0.25, charged_from: 'scale' }).counted?.isScale).toBe(true);
});

test('a long log is thinned, and without facts there is no flow', () => {
  const long = series(4000, (t) => 10 - flowed(t));
  const { read, corrected } = evidenceOf(long);
  expect(read.elapsedS.length).toBeLessThanOrEqual(300);
  expect(corrected.elapsedS).toEqual(corrected.elapsedS.toSorted((a, b) => a - b));
  expect(chargeEvidence(long, {})).toMatchObject({ flow: null, counted: null, beforeKg: 10 });
});
