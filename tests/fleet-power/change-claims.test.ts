import { expect, test } from 'vitest';
import { changeClaims } from './change-claims.ts';

const claims = changeClaims(21, 60);

test.each(claims.filter(({ goal }) => goal !== ''))('$what: $figure', ({ figure, what }) => {
  expect(figure).toBeLessThanOrEqual(what.includes('all along') ? 0.15 : 0.08);
});

test.each([
  ['odds × 3 from half time: told of the person', 0.1],
  ['odds × 3 from half time by a hose of three: told of the crew', 0.6],
])('%s: %d at least', (what, least) => {
  expect(claims.find((each) => each.what === what)?.figure).toBeGreaterThanOrEqual(least);
});
