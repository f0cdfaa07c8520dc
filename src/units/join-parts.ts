import type { AnyUnitName } from './unit-words.ts';

/** A number in a unit. */
export interface Part {
  readonly value: number;
  readonly unit: AnyUnitName;
}

/** What may follow a whole number of a unit, and how many of it make one. */
const smaller: { readonly [Name in AnyUnitName]?: { unit: AnyUnitName; count: number } } = {
  lb: { unit: 'oz', count: 16 },
  ft: { unit: 'in', count: 12 },
  h: { unit: 'min', count: 60 },
  min: { unit: 's', count: 60 },
};

/**
 * Pounds and ounces, feet and inches, hours, minutes and seconds as one number of the smallest.
 *
 * All but the last must be whole, and each but the first less than one of the unit before it.
 *
 * @param parts at least one, none below zero
 * @returns the sum in the last unit, or what is wrong
 * @example joinParts([{ value: 5, unit: 'lb' }, { value: 6, unit: 'oz' }]) // { value: 86, unit: 'oz' }
 */
export function joinParts([first, ...rest]: readonly Part[]): Part | { problem: string } {
  let sum = first;
  for (const { value, unit } of rest) {
    const step = smaller[sum.unit];
    if (step?.unit !== unit) return { problem: `${unit} cannot follow ${sum.unit}` };
    if (!Number.isInteger(sum.value)) return { problem: `before ${unit} there must be whole ${sum.unit}` };
    if (value >= step.count) return { problem: `beside ${sum.unit} there must be fewer than ${step.count} ${unit}` };
    sum = { value: sum.value * step.count + value, unit };
  }
  return sum;
}
