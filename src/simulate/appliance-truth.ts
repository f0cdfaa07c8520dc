/** What was true of an appliance over the simulated year. */
export interface ApplianceTruth {
  readonly system_id: string;
  /** What it would lose in a year in which nothing of it were repaired [kg]. */
  readonly leak_kg_per_year: number;
  /** What it lost [kg]. */
  readonly lost_kg: number;
  /** What was truly put in to make up for leaks; neither the first charge nor what is kept elsewhere over winter [kg]. */
  readonly added_kg: number;
}

/** The columns of the table, in their order. */
export const applianceTruthColumns = [
  'system_id',
  'leak_kg_per_year',
  'lost_kg',
  'added_kg',
] as const satisfies readonly (keyof ApplianceTruth)[];
