import { expect, test } from 'vitest';
import { emptyCorner } from '../../src/charts/empty-corner.ts';
import { limitLines } from '../../src/charts/limit-lines.ts';

test('words of a line stand where curves are not', () => {
  const falling = [
    { across: 0, heightPx: 200 },
    { across: 0.2, heightPx: 20 },
    { across: 0.9, heightPx: 15 },
  ];
  expect(emptyCorner([falling], 60)).toEqual({ side: 'right', isAbove: true });
  expect(emptyCorner([falling], 220)).toEqual({ side: 'left', isAbove: true });
  const above = [
    { across: 0, heightPx: 70 },
    { across: 1, heightPx: 70 },
  ];
  expect(emptyCorner([above], 60)).toEqual({ side: 'left', isAbove: false });
  // Below a line at the very bottom is the axis.
  expect(emptyCorner([above.map((place) => ({ ...place, heightPx: 12 }))], 10).isAbove).toBe(true);
  const broken = [
    { across: 0, heightPx: 200 },
    { across: 0.1, heightPx: null },
    { across: 0.2, heightPx: 20 },
  ];
  expect(emptyCorner([broken], 60)).toEqual({ side: 'left', isAbove: true });
});

test('close limits have their words on both sides, equal ones share a line', () => {
  const limit = (label: string, pa: number) => ({ label, pa });
  const options = { pressureText: (pa: number) => `${pa} Pa`, heightPx: (pa: number) => pa } as const;
  const three = [limit('c', 120), limit('a', 100), limit('b', 110), limit('a too', 100), limit('far', 200)];
  expect(limitLines(three, { ...options, alone: () => 'above' })).toEqual([
    { pa: 100, text: 'a, a too: 100 Pa', offsetPx: 9 },
    { pa: 110, text: '', offsetPx: -8 },
    { pa: 120, text: 'b: 110 Pa · c: 120 Pa', offsetPx: -8 },
    { pa: 200, text: 'far: 200 Pa', offsetPx: -8 },
  ]);
  expect(limitLines([limit('a', 1)], { ...options, alone: () => 'below' })[0]?.offsetPx).toBe(9);
});
