import { expect, test } from 'vitest';
import { lineFacts } from '../../src/facts/line-facts.ts';

test('the vapour pressure of water is that of the coldest: 2505.14 Pa at 70 °F, table water-by-temperature', () => {
  const facts = lineFacts({ meanK: 296, lowK: 294.2611 });
  expect(facts).toMatchObject({ line_k: 296, line_low_k: 294.2611 });
  expect(Math.abs((facts.water_vapour_pa ?? 0) - 2505.14)).toBeLessThan(0.05);
});

test('no clamp, or one that was not connected: nothing', () => {
  expect(lineFacts(undefined)).toEqual({});
  for (const lowK of [Number.NaN, 0, 149, 401]) expect(lineFacts({ meanK: 290, lowK })).toEqual({});
  expect(lineFacts({ meanK: Number.NaN, lowK: 290 })).toEqual({});
});
