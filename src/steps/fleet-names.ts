import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import type { NamedUnit } from '../pages/fleet-data.ts';
import type { PeopleNames } from './people-names.ts';

/** Names a unit by its place among those of its grouping. */
export type UnitNames = (kind: NamedUnit['kind'], unit: number) => NamedUnit;

/** Names for all units of a fleet. */
export function unitNames(jobs: FleetJobs, names: PeopleNames, codes: boolean): UnitNames {
  return (kind, unit) => {
    if (kind === 'fleet') return { kind, id: 'fleet', name: 'all' };
    const id = jobs.units[kind].ids[unit];
    return kind === 'technician' ? technicianNamed(id, names, codes) : { kind, id, name: id };
  };
}

/** A technician, with a job or without. */
export function technicianNamed(id: string, names: PeopleNames, codes: boolean): NamedUnit {
  return { kind: 'technician', id: codes ? names(id) : id, name: names(id) };
}
