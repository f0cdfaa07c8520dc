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
    if (kind === 'technician') return technicianNamed(id, names, codes);
    const name = kind === 'crew' ? names.crew(id) : id;
    return { kind, id: name, name };
  };
}

/** A technician, with a job or without. */
export function technicianNamed(id: string, names: PeopleNames, codes: boolean): NamedUnit {
  const name = names.technician(id);
  return { kind: 'technician', id: codes ? name : id, name };
}
