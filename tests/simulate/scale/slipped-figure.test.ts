import { expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { slippedFigureKg } from '../../../src/simulate/scale/slipped-figure.ts';

const digitsOf = (kg: number, decimals: number, length = 0) =>
  Math.abs(kg).toFixed(decimals).replace('.', '').padStart(length, '0').split('');

test.each([
  [14.935, 3],
  [3.6, 2],
  [-0.12, 2],
  [0, 3],
  [11.11, 2],
])('%d is never written as it is, but by one slip', (kg, decimals) => {
  const random = new Random(3);
  const kinds = new Set<string>();
  for (let round = 0; round < 400; round++) {
    const writtenKg = slippedFigureKg(random, kg, decimals);
    expect(writtenKg).not.toBe(kg);
    expect(writtenKg).toSatisfy(Number.isFinite);
    if (kg !== 0 && [10, 0.1].some((ratio) => Math.abs(writtenKg - kg * ratio) < 1e-9)) {
      kinds.add('point');
      continue;
    }
    const right = digitsOf(kg, decimals);
    const wrong = digitsOf(writtenKg, decimals, right.length);
    const places = right.flatMap((digit, place) => (digit === wrong[place] ? [] : [place]));
    expect(wrong).toHaveLength(right.length);
    if (places.length === 1) kinds.add('digit');
    else {
      const [first = 0, second] = places;
      expect(second).toBe(first + 1);
      expect([wrong[first], wrong[second]]).toEqual([right[second], right[first]]);
      kinds.add('neighbours');
    }
  }
  const none = kg === 0 ? ['digit'] : kg === 11.11 ? ['digit', 'point'] : ['digit', 'neighbours', 'point'];
  expect([...kinds].sort()).toEqual(none);
});
