import type { Table } from './table.ts';
import { appliances } from './tables/appliances.ts';
import { callbacks } from './tables/callbacks.ts';
import { curveMatches } from './tables/curve-matches.ts';
import { cylinders } from './tables/cylinders.ts';
import { facts } from './tables/facts.ts';
import { findings } from './tables/findings.ts';
import { gauges } from './tables/gauges.ts';
import { inspections } from './tables/inspections.ts';
import { jobs } from './tables/jobs.ts';
import { lineSets } from './tables/line-sets.ts';
import { memberships } from './tables/memberships.ts';
import { people } from './tables/people.ts';
import { readings } from './tables/readings.ts';
import { rejects } from './tables/rejects.ts';
import { repairs } from './tables/repairs.ts';
import { reviews } from './tables/reviews.ts';
import { sources } from './tables/sources.ts';
import { trainings } from './tables/trainings.ts';
import { weighings } from './tables/weighings.ts';

/** Every table of the interchange bundle that comes in, in the order in which they are taken in. */
export const inputTables: readonly Table[] = [
  people,
  memberships,
  trainings,
  gauges,
  appliances,
  cylinders,
  jobs,
  lineSets,
  weighings,
  callbacks,
  repairs,
  inspections,
  reviews,
  readings,
];

/** Every table that comes out. */
export const outputTables: readonly Table[] = [facts, findings, curveMatches, rejects, sources];

/** The table of that name, or undefined. */
export function tableNamed(name: string): Table | undefined {
  return [...inputTables, ...outputTables].find((table) => table.name === name);
}
