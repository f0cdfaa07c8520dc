import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import {
  bitAgreement,
  type CurveBits,
  curveBits,
  packedBits,
  unpackedBits,
} from '../../../src/traces/curve/curve-bits.ts';
import { curvePrint } from '../../../src/traces/curve/curve-print.ts';
import { cellOf, cellsAround, keptLevels } from '../../../src/traces/curve/landmark-index.ts';
import { landmarkKinds } from '../../../src/traces/curve/landmarks.ts';
import { peakWords } from '../../../src/traces/curve/peak-words.ts';
import { pressureCurve } from '../../../src/traces/curve/pressure-curve.ts';
import { sameCurve } from '../../../src/traces/curve/same-curve.ts';
import { textureOf } from '../../../src/traces/curve/texture.ts';

/** A pull-down, a hold and a rise, with 1 % of noise. */
function evacuation(seed: number, rows = 900, noise = 0.01): { elapsedS: Float64Array; pa: Float64Array } {
  const random = new Random(seed);
  const elapsedS = Float64Array.from({ length: rows }, (_, row) => 2 * row);
  const pa = elapsedS.map((atS) => {
    const truePa = atS < 1200 ? 30 + 20_000 * Math.exp(-atS / 90) : 30 + 0.3 * (atS - 1200);
    return truePa * (1 + random.normal(0, noise));
  });
  return { elapsedS, pa };
}

const textureFrom = (pa: Float64Array) =>
  textureOf(
    pressureCurve(
      pa.map((_, row) => row),
      pa,
    ),
  );

test('a texture leaves nothing of a course whose logarithm is a parabola', () => {
  const pa = Float64Array.from({ length: 200 }, (_, row) => Math.exp(9 - 0.03 * row + 1e-4 * row * row));
  const { deviations, telling } = textureFrom(pa);
  expect(telling).toBe(0);
  expect(deviations.subarray(5, 195).every((deviation) => deviation === 0)).toBe(true);
});

test('a rescaled curve has the same texture, words and landmarks', () => {
  const { elapsedS, pa } = evacuation(1);
  const [one, two] = [
    curvePrint(elapsedS, pa),
    curvePrint(
      elapsedS,
      pa.map((value) => 1.03 * value),
    ),
  ];
  expect(two?.words).toEqual(one?.words);
  expect(two?.landmarks.map(({ kind, row }) => [kind, row])).toEqual(
    one?.landmarks.map(({ kind, row }) => [kind, row]),
  );
  expect(one?.words.length).toBeGreaterThan(10);
  expect(one?.landmarks.map(({ kind }) => kind)).toContain('upward');
});

test('a curve of which nothing tells has no print: short, without noise, or never within the range', () => {
  const { elapsedS, pa } = evacuation(2);
  expect(curvePrint(elapsedS, pa)?.hasFace).toBe(true);
  expect(curvePrint(elapsedS.subarray(0, 40), pa.subarray(0, 40))).toBeUndefined();
  expect(curvePrint(elapsedS, evacuation(2, 900, 0).pa)).toBeUndefined();
  const coarse = evacuation(2, 900, 0).pa.map((value) => 5 * Math.round(value / 5));
  expect(curvePrint(elapsedS, coarse)).toBeUndefined();
  expect(
    curvePrint(
      elapsedS,
      pa.map(() => Number.POSITIVE_INFINITY),
    ),
  ).toBeUndefined();
});

test('a curve that has a face is found again in three fifths of it, from wherever, nearly always', () => {
  let [faces, found] = [0, 0];
  for (let seed = 1; seed <= 300; seed += 1) {
    const rows = 200 + seed;
    const { elapsedS, pa } = evacuation(seed, rows);
    if (curvePrint(elapsedS, pa)?.hasFace !== true) continue;
    faces += 1;
    const kept = Math.ceil(0.6 * rows);
    const from = Math.floor(new Random(seed).uniform(0, rows - kept));
    const cut = pressureCurve(elapsedS.slice(0, kept), pa.slice(from, from + kept));
    if (sameCurve(pressureCurve(elapsedS, pa), cut, -from)?.shiftRows === 0 - from) found += 1;
  }
  expect(faces).toBeGreaterThan(150);
  expect(found / faces).toBeGreaterThan(0.95);
});

test('words do not depend on where a curve is cut, but for the first and last few', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 0, max: 360 }), (seed, from) => {
      const { pa } = evacuation(seed);
      const all = peakWords(textureFrom(pa));
      const cut = peakWords(textureFrom(pa.slice(from, from + 540)));
      // A word and the window it was kept in lie within the cut, clear of its ends.
      const inside = all.filter(({ row }) => row > from + 150 && row < from + 540 - 150);
      const kept = new Set(cut.map(({ word, row }) => `${word} ${row + from}`));
      expect(inside.every(({ word, row }) => kept.has(`${word} ${row}`))).toBe(true);
    }),
    { numRuns: 40 },
  );
});

test('bits agree as counted one by one, whatever the shift, and survive packing', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: -400, max: 400 }), (seed, shift) => {
      const [a, b] = [textureFrom(evacuation(seed, 300).pa), textureFrom(evacuation(seed + 1, 333).pa)];
      let [rows, apart] = [0, 0];
      for (let row = 0; row < 300; row += 1) {
        const [one, two] = [a.deviations[row], b.deviations[row + shift] ?? Number.NaN];
        if (!(Math.abs(one) > 0.4) || !(Math.abs(two) > 0.4)) continue;
        rows += 1;
        if (one > 0 !== two > 0) apart += 1;
      }
      const again = (bits: CurveBits) => unpackedBits(Uint8Array.from(packedBits(bits)));
      const agreement = bitAgreement(again(curveBits(a)), again(curveBits(b)), shift);
      expect(agreement.rows).toBe(rows);
      expect(agreement.sigma).toBeCloseTo(rows === 0 ? 0 : (rows - 2 * apart) / Math.sqrt(rows), 12);
    }),
    { numRuns: 100 },
  );
});

test('landmarks that are alike lie in cells that are looked at', () => {
  const level = fc.float({ min: -9, max: 9, noNaN: true });
  const near = fc.float({ min: Math.fround(-0.014), max: Math.fround(0.014), noNaN: true });
  fc.assert(
    fc.property(
      fc.constantFrom(...landmarkKinds),
      fc.array(fc.tuple(level, near), { minLength: 10, maxLength: 10 }),
      (kind, levels) => {
        const one = keptLevels(Float32Array.from(levels, ([at]) => at));
        const two = keptLevels(Float32Array.from(levels, ([at, by]) => at + by));
        const [cell, other] = [cellOf(kind, one), cellOf(kind, two)];
        expect(cell !== undefined && other !== undefined && cellsAround(cell, one).includes(other)).toBe(true);
      },
    ),
  );
});
