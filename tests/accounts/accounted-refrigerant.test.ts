import { expect, test } from 'vitest';
import { accountedRefrigerant, holdsHydrofluorocarbon } from '../../src/accounts/accounted-refrigerant.ts';
import { isOzoneDepleting, ozoneDepletingRefrigerants } from '../../src/accounts/ozone-depleting.ts';

test.each([
  ['R-410A', 'R-410A'],
  ['r410a', 'R-410A'],
  ['R 410 A', 'R-410A'],
  ['410A', 'R-410A'],
  ['R1234ze(E)', 'R-1234ze(E)'],
  ['r-1234ZE-e', 'R-1234ze(E)'],
  ['R-466A', 'R-466A'],
  ['22', 'R-22'],
  ['R-4100', undefined],
  ['R-1234ze', undefined],
  ['the blue one', undefined],
  ['', undefined],
  [null, undefined],
  [undefined, undefined],
])('%j is accounted as %s', (written, name) => {
  expect(accountedRefrigerant(written)).toBe(name);
});

test.each([
  ['R-410A', true],
  ['R-454C', true],
  ['R-466A', true],
  ['R-32', true],
  ['R-1234yf', false],
  ['R-290', false],
  ['R-744', false],
  ['R-22', false],
])('%s holds a hydrofluorocarbon: %s', (name, holds) => {
  expect(holdsHydrofluorocarbon(name)).toBe(holds);
});

test('what depletes ozone is known by name, and what does not is not', () => {
  for (const name of ['R-11', 'R-12', 'R-22', 'R-123', 'R-502', 'R-408A']) expect(isOzoneDepleting(name)).toBe(true);
  for (const name of ['R-32', 'R-134a', 'R-404A', 'R-410A', 'R-507A', 'R-1234yf', 'R-290', 'R-744'])
    expect(isOzoneDepleting(name)).toBe(false);
  for (const name of ozoneDepletingRefrigerants) expect(accountedRefrigerant(name)).toBe(name);
});
