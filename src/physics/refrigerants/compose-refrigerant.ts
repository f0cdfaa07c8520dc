import { DryholdError } from '../../errors.ts';
import type { Fluid } from '../equations/fluid.ts';
import { refrigerantFluids } from '../fluids/fluids.ts';
import { mixtureOf, type Refrigerant } from './mixture-of.ts';

/** How far mass fractions may be from adding up to 1: rounding, no more. */
const SUM_TOLERANCE = 1e-6;

/**
 * A refrigerant from its components.
 *
 * For blends that `blends.ts` does not list.
 *
 * @param designation what the refrigerant is to be called
 * @param massFractions mass fraction of each component by its designation, above 0, together 1
 * @throws DryholdError `unknown-refrigerant` for a component without an equation of state; `out-of-range` for fractions
 *   that are not above 0 or do not add up to 1
 *
 * Source: mole fractions from molar masses. Accuracy: see `Refrigerant`.
 *
 * @example
 * composeRefrigerant('half and half', { 'R-32': 0.5, 'R-125': 0.5 }).molarMassKgPerMol // 0.072585
 */
export function composeRefrigerant(designation: string, massFractions: Readonly<Record<string, number>>): Refrigerant {
  const components = Object.keys(massFractions).map(fluidNamed);
  const fractions = Object.values(massFractions);
  for (const [component, fraction] of Object.entries(massFractions)) {
    if (fraction > 0) continue;
    const quantity = `mass fraction of ${component} in ${designation}`;
    throw new DryholdError('out-of-range', { quantity, bound: 'above 0', received: fraction });
  }
  const total = fractions.reduce((sum, fraction) => sum + fraction, 0);
  if (!(Math.abs(total - 1) <= SUM_TOLERANCE)) {
    const quantity = `sum of the mass fractions of ${designation}`;
    throw new DryholdError('out-of-range', { quantity, bound: '1', received: Number(total.toPrecision(9)) });
  }
  return mixtureOf(
    designation,
    components,
    fractions.map((fraction) => fraction / total),
  );
}

function fluidNamed(designation: string): Fluid {
  const fluid = refrigerantFluids.find((known) => known.designation === designation);
  if (fluid !== undefined) return fluid;
  const known = refrigerantFluids.map((one) => one.designation);
  throw new DryholdError('unknown-refrigerant', { refrigerant: designation, known });
}
