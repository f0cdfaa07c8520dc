import type { QuantityKind } from '../../src/units/quantity.ts';

export const everyKind: readonly QuantityKind[] = [
  'temperature',
  'absolute-pressure',
  'gauge-pressure',
  'mass',
  'length',
  'duration',
  'volume',
  'flow',
  'power',
];
