/** What is planted in cylinders and their weighings; only `overfilled` ones are recovery cylinders for certain. */
export type CylinderTruthKind = 'lost' | 'mistyped' | 'swapped' | 'overfilled' | 'unnamed' | 'early';

/**
 * Something planted in a cylinder or in what is written of it.
 *
 * - `lost`: refrigerant left it between two weighings, and nobody wrote it down
 * - `mistyped`: one figure of a weighing is not what the scale showed
 * - `swapped`: a weighing is written for another cylinder
 * - `overfilled`: a recovery cylinder holds more than it may
 * - `unnamed`: a weighing names no cylinder
 * - `early`: a weighing lies before the day on which its cylinder is said to have come
 */
export interface CylinderTruth {
  /** The true one, whatever the weighing says. */
  readonly cylinder_id: string;
  readonly kind: CylinderTruthKind;
  /** When it happened; of a slip of the hand, when the weighing was. */
  readonly at: string;
  readonly weighing_id?: string | undefined;
  /** What was lost; written less true figure; what was truly weighed; what is over the capacity [kg]. */
  readonly kg: number;
  /** The cylinder that the weighing names instead. */
  readonly other_cylinder_id?: string | undefined;
  /** What the scale showed, of a weighing that is not written as it was [kg]. */
  readonly true_start_kg?: number | undefined;
  readonly true_end_kg?: number | undefined;
}

/** The columns of the table, in their order. */
export const cylinderTruthColumns = [
  'cylinder_id',
  'kind',
  'at',
  'weighing_id',
  'kg',
  'other_cylinder_id',
  'true_start_kg',
  'true_end_kg',
] as const satisfies readonly (keyof CylinderTruth)[];
