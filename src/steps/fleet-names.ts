import type { FleetJobs, Grouping } from '../fleet/fleet-jobs.ts';
import type { PeopleNames } from './people-names.ts';

/** A technician, a crew, an instrument or the fleet as an output names it. */
export interface NamedUnit {
  readonly kind: Grouping | 'fleet';
  /** With codes, a technician's code. */
  readonly id: string;
  readonly name: string;
}

/** Names a unit by its place among those of its grouping. */
export type UnitNames = (kind: Grouping | 'fleet', unit: number) => NamedUnit;

/** Names for all units of a fleet. */
export function unitNames(jobs: FleetJobs, names: PeopleNames, codes: boolean): UnitNames {
  return (kind, unit) => {
    if (kind === 'fleet') return { kind, id: 'fleet', name: 'all' };
    const id = jobs.units[kind].ids[unit];
    if (kind !== 'technician') return { kind, id, name: id };
    return { kind, id: codes ? names(id) : id, name: names(id) };
  };
}
