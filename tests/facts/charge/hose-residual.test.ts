import { expect, test } from 'vitest';
import { hoseResidual } from '../../../src/facts/charge/hose-residual.ts';

const ounceKg = 0.028349523125;

test('short charging hoses full of liquid keep about 2.2 oz: common practice, no source', () => {
  // Three hoses of 0.9 m and 4.8 mm, and 10 mL of manifold, R-410A.
  const residual = hoseResidual({ refrigerant: 'R-410A' }, undefined);
  expect(residual.highKg / ounceKg).toBeGreaterThan(2);
  expect(residual.highKg / ounceKg).toBeLessThan(2.4);
  // Of hoses of which nothing is on record nothing is taken off.
  expect(residual).toMatchObject({ kg: 0, lowKg: 0, basis: 'assumed' });
});

test('hoses on record: their volume times the density of what stood in them', () => {
  const hoses = { refrigerant: 'R-410A', charging_hose_bore_mm: 4.8, charging_hose_length_m: 1.5 };
  const volumeM3 = 1.5 * (Math.PI / 4) * 0.0048 ** 2;
  // R-410A at 77 °F, from memory of handbook tables: 1062 and 66 kg/m³.
  const liquid = hoseResidual({ ...hoses, charging_hose_phase: 'liquid' }, undefined);
  const vapour = hoseResidual({ ...hoses, charging_hose_phase: 'vapour' }, undefined);
  expect(liquid.kg / volumeM3).toBeGreaterThan(1050);
  expect(liquid.kg / volumeM3).toBeLessThan(1070);
  expect(vapour.kg / volumeM3).toBeGreaterThan(60);
  expect(vapour.kg / volumeM3).toBeLessThan(72);
  expect([liquid.basis, vapour.basis]).toEqual(['computed', 'computed']);
  // What stood in them not being known, anything between the two.
  const either = hoseResidual(hoses, undefined);
  expect([either.lowKg, either.highKg]).toEqual([vapour.kg, liquid.kg]);
});

test('a recorded figure goes before the hoses, and none at all is certain', () => {
  const hoses = { charging_hose_bore_mm: 4.8, charging_hose_length_m: 1.5 };
  expect(hoseResidual(hoses, 0.05)).toMatchObject({ kg: 0.05, basis: 'recorded' });
  expect(hoseResidual(hoses, 0)).toEqual({ kg: 0, lowKg: 0, highKg: 0, basis: 'recorded' });
});

test('of an unknown refrigerant it may be as much as the densest leaves', () => {
  const known = hoseResidual({ refrigerant: 'R-22' }, undefined);
  const unknown = hoseResidual({ refrigerant: 'R-999' }, undefined);
  expect(unknown).toMatchObject({ kg: 0, lowKg: 0, basis: 'assumed' });
  expect(unknown.highKg).toBeGreaterThan(known.highKg);
});
