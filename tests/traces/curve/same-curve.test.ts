import { expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { pressureCurve } from '../../../src/traces/curve/pressure-curve.ts';
import { sameCurve } from '../../../src/traces/curve/same-curve.ts';
import { textureOf } from '../../../src/traces/curve/texture.ts';

const rows = 600;
const elapsedS = Float64Array.from({ length: rows }, (_, row) => 2 * row);
const noisy = (seed: number, of: Float64Array, noise = 0.01) => {
  const random = new Random(seed);
  return of.map((pa) => pa * (1 + random.normal(0, noise)));
};
const smooth = elapsedS.map((atS) => 40 + 15_000 * Math.exp(-atS / 120));
const one = noisy(1, smooth);

test('a curve with noise over it is the same; what differs is measured', () => {
  const copy = noisy(
    2,
    one.map((pa) => 0.98 * pa),
  );
  const same = sameCurve(
    pressureCurve(elapsedS, one),
    pressureCurve(
      elapsedS.map((atS) => atS - 500),
      copy,
    ),
    3,
  );
  expect(same?.shiftRows).toBe(0);
  expect(same?.shiftS).toBe(-500);
  expect(same?.scaleRatio).toBeCloseTo(0.98, 2);
  expect(same?.scatterRatio).toBeGreaterThan(0.008);
  expect(same?.scatterRatio).toBeLessThan(0.012);
  expect(same?.share).toBeGreaterThan(0.9);
});

test('the same smooth course with other noise is another curve', () => {
  expect(sameCurve(pressureCurve(elapsedS, one), pressureCurve(elapsedS, noisy(3, smooth)), 0)).toBeUndefined();
});

test('of a curve that is a copy in part, the part is told', () => {
  const spliced = Float64Array.from(one, (pa, row) => (row < 256 ? noisy(5, smooth)[row] : pa));
  const same = sameCurve(pressureCurve(elapsedS, one), pressureCurve(elapsedS, spliced), 0);
  expect(same?.fromS).toBeGreaterThan(2 * 200);
  expect(same?.fromS).toBeLessThan(2 * 300);
  expect(same?.toS).toBe(2 * (rows - 1));
});

test('too far from where it was looked for, nothing is found', () => {
  expect(sameCurve(pressureCurve(elapsedS, one), pressureCurve(elapsedS, one), 40)).toBeUndefined();
});

test('curves whose textures go together by chance are not the same where their ratio wanders', () => {
  const wandering = one.map((pa, row) => pa * Math.exp(0.3 * Math.sin(row / 60)));
  expect(sameCurve(pressureCurve(elapsedS, one), pressureCurve(elapsedS, wandering), 0)).toBeUndefined();
});

test('a few steps at the same places make no two curves one, however small all else is', () => {
  const shortS = elapsedS.subarray(0, 250);
  const stepped = (seed: number) =>
    noisy(
      seed,
      shortS.map((_, row) => (row % 48 < 24 ? 3.3e6 : 3.4e6)),
      1e-4,
    );
  const [a, b] = [pressureCurve(shortS, stepped(6)), pressureCurve(shortS, stepped(7))];
  // Each of ten steps bends the course on either side of it.
  expect(textureOf(a).effective).toBeLessThan(70);
  expect(sameCurve(a, b, 0)).toBeUndefined();
});

test('two copies of what has no face are not held to be one', () => {
  const few = [elapsedS.subarray(0, 90), one.subarray(0, 90)] as const;
  expect(sameCurve(pressureCurve(...few), pressureCurve(...few), 0)).toBeUndefined();
});
