import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { quantityOf } from '../../src/units/quantity.ts';
import type { UnitName } from '../../src/units/unit.ts';

const [, ...rows] = readFileSync(new URL('../references/nist-sp-811/values.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => line.split(','));

test.each(rows)('reproduces one %s as a %s of %s in SI, NIST SP 811, appendix B.9', (unit, kind, si, tolerance) => {
  const { kind: found, ...values } = quantityOf(1, unit as UnitName);
  const [value] = Object.values(values) as number[];
  expect(found).toBe(kind);
  expect(Math.abs(value - Number(si))).toBeLessThanOrEqual(Number(tolerance) + 1e-15 * value);
});

test.each([-459.67, -40, 0, 32, 98.6, 212])('reproduces t/°C = (t/°F − 32)/1.8 at %d °F', (fahrenheit) => {
  expect(quantityOf(fahrenheit, 'F')).toEqual({
    kind: 'temperature',
    temperatureK: expect.closeTo((fahrenheit - 32) / 1.8 + 273.15, 9),
  });
});
