import { expect, test } from 'vitest';
import type { TopLevelSpec } from 'vega-lite';
import { type PairedQuantity, pairedTrace } from '../../src/charts/paired-trace.ts';
import { valuesOf } from './values-of.ts';

const paired = { elapsedS: [0, 60, 120, 180], values: [101_325, 400, 60, 66] };

test('two jobs are not drawn beside each other where one was hardly read', () => {
  const few = { elapsedS: [0, 1, 2, 3], values: [1, null, null, 2] };
  expect(pairedTrace(few, paired, { quantity: 'vacuum', units: 'ip' })).toBeNull();
  expect(pairedTrace(paired, few, { quantity: 'vacuum', units: 'ip' })).toBeNull();
});

test('what two jobs are drawn by is in the reader’s units', () => {
  const flat = (value: number) => ({ elapsedS: [0, 60, 120], values: [value, value, value] });
  const drawn = (value: number, quantity: PairedQuantity, units: 'ip' | 'si') =>
    (valuesOf(pairedTrace(flat(value), flat(value), { quantity, units }) as TopLevelSpec, 'own') as { v: number }[])[0]
      .v;
  expect(drawn(66.661, 'vacuum', 'ip')).toBe(500);
  expect(drawn(66.66, 'vacuum', 'si')).toBe(66.66);
  expect(drawn(689_476, 'pressure', 'ip')).toBe(100);
  expect(drawn(1_000_000, 'pressure', 'si')).toBe(10);
  expect(drawn(5, 'subcooling', 'ip')).toBe(9);
  expect(drawn(5, 'superheat', 'si')).toBe(5);
});
