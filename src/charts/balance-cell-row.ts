import type { FilterableRow } from './chart-filter.ts';

/** A row of `balance-cells`: flows of refrigerant that are alike in all that can be filtered by. Rows add up, field by field. */
export interface BalanceCellRow extends FilterableRow {
  readonly boughtKg: number;
  readonly chargedKg: number;
  readonly recoveredKg: number;
  /** Missing; below 0 what is too much. */
  readonly unexplainedKg: number;
  /** Of that, by steps and placing of every weighing [kg²]. */
  readonly unexplainedVarianceKg2: number;
  /** Of what was charged, in the currency of the shop; null where no price is known. */
  readonly cost: number | null;
  /** Of what was charged, as carbon dioxide [t]; null where no value is known. */
  readonly co2eT: number | null;
}

/** How a chart shows masses. */
export interface ShownMass {
  /** `lb` or `kg`. */
  readonly unit: string;
  /** Of one such unit [kg]. */
  readonly kgPerShown: number;
}
