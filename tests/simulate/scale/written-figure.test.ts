import { expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { writtenFigureKg } from '../../../src/simulate/scale/written-figure.ts';

test('nearly every figure is the drop; the others are another mass of 0 or more', () => {
  const random = new Random(9);
  const figures = Array.from({ length: 20_000 }, (_, index) => {
    const dropKg = (1 + (index % 3000)) / 1000;
    return { dropKg, figureKg: writtenFigureKg(random, dropKg) };
  });
  const wrong = figures.filter(({ dropKg, figureKg }) => figureKg !== dropKg);
  expect(wrong.length / figures.length).toBeGreaterThan(0.012);
  expect(wrong.length / figures.length).toBeLessThan(0.018);
  expect(wrong.every(({ figureKg }) => figureKg >= 0)).toBe(true);
  expect(wrong.every(({ dropKg, figureKg }) => Math.abs(figureKg - dropKg) > 0.0009)).toBe(true);
});
