import type { Facts } from '../../records/tables/facts.ts';

/** A column that looks like another unit than its name says, and what shows it. */
export interface UnitSuspicion {
  readonly column: NonNullable<Facts['unit_column']>;
  readonly sign: NonNullable<Facts['unit_sign']>;
  /** As people write them. */
  readonly said: string;
  readonly likely: string;
  /** Another explanation that remains. */
  readonly also?: string | undefined;
  /** How many of the unit said make one of the unit it looks like; 1 where it is a shift. */
  readonly factor: number;
  readonly isSure: boolean;
}

/** The facts of a suspicion. */
export function suspicionFacts({ column, sign, said, likely, also, factor, isSure }: UnitSuspicion): Partial<Facts> {
  return {
    unit_column: column,
    unit_sign: sign,
    unit_said: said,
    unit_likely: likely,
    ...(also === undefined ? {} : { unit_also: also }),
    unit_factor: factor,
    unit_sure: isSure,
  };
}
