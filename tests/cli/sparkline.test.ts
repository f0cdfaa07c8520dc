import { expect, test } from 'vitest';
import { sparkline } from '../../src/cli/sparkline.ts';

test('a curve goes from the lowest bar to the highest', () => {
  expect(sparkline([0, 1, 2, 3], [1, 2, 3, 4], 4)).toBe('▁▃▆█');
});

test('stretches are as wide as their time, and a dot where nothing was read', () => {
  expect(sparkline([0, 1, 8], [1, 1, 2], 8)).toBe('▁▁·····█');
  expect(sparkline([0, 1, 2, 3], [1, Number.NaN, 3, 4], 4)).toBe('▁·▆█');
});

test('what is always the same is a low line, and what was never read a dotted one', () => {
  expect(sparkline([0, 1, 2], [5, 5, 5], 3)).toBe('▁▁▁');
  expect(sparkline([0, 1, 2], [Number.NaN, Number.NaN, Number.NaN], 3)).toBe('···');
  expect(sparkline([], [], 3)).toBe('···');
});
