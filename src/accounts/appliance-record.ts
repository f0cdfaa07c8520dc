import type { Jurisdiction, Sector } from './rules/rule-set.ts';

/** How a full charge is known: the rule's four ways. */
export type FullChargeBasis = 'maker' | 'calculated' | 'measured' | 'range';

/** An appliance as the rules look at it; null is not on record. */
export interface ApplianceRecord {
  readonly systemId: string;
  readonly siteId: string | null;
  /** As accounted; null where none is named, or none that is known. */
  readonly refrigerant: string | null;
  /** As written. */
  readonly writtenRefrigerant: string | null;
  readonly fullChargeKg: number | null;
  /** Of an established range it is the middle. */
  readonly fullChargeBasis: FullChargeBasis | null;
  readonly sector: Sector | null;
  readonly jurisdiction: Jurisdiction | null;
  readonly installedDay: number | null;
  readonly retiredDay: number | null;
  readonly isHermetic: boolean | null;
  readonly hasDetection: boolean | null;
}

/** The words of a record for each basis, in small letters. */
const basisWords: Readonly<Record<FullChargeBasis, readonly string[]>> = {
  maker: ['maker', 'manufacturer', 'nameplate'],
  calculated: ['calculated', 'calculation', 'computed', 'engineering'],
  measured: ['measured', 'measurement', 'weighed'],
  range: ['range', 'established range', 'midpoint'],
};

/**
 * The basis that a record's word means; null for one that says none of the four.
 *
 * @example fullChargeBasis('Measured') // 'measured'
 */
export function fullChargeBasis(written: string | null | undefined): FullChargeBasis | null {
  const word = written?.trim().toLowerCase();
  if (word === undefined) return null;
  return (Object.keys(basisWords) as FullChargeBasis[]).find((basis) => basisWords[basis].includes(word)) ?? null;
}

/**
 * Whose rules a record's word means: `US`, `us-ca`, `EU`; null for another.
 *
 * @example jurisdictionOf('US-CA') // 'US'
 */
export function jurisdictionOf(written: string | null | undefined): Jurisdiction | null {
  const [word] = (written ?? '')
    .trim()
    .toUpperCase()
    .split(/[-_ /]/);
  if (word === 'US' || word === 'USA') return 'US';
  return word === 'EU' ? 'EU' : null;
}
