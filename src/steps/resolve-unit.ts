import { DryholdError } from '../errors.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import type { Store } from '../store/store.ts';
import { peopleNames } from './people-names.ts';

/** A technician or a crew by its place among those of the fleet. */
export interface ResolvedUnit {
  readonly grouping: 'technician' | 'crew';
  readonly unit: number;
}

/** Of more names only so many are told. */
const mostTold = 20;

/**
 * Who is meant: a technician by id, name or code, or a crew by id or code; capitals do not matter.
 *
 * @param codes whether people are told of by code
 * @throws DryholdError `unknown-person` where nobody is meant, `ambiguous-person` where more than one is
 */
export async function resolveUnit(store: Store, jobs: FleetJobs, who: string, codes: boolean): Promise<ResolvedUnit> {
  const [named, coded] = [await peopleNames(store, false), await peopleNames(store, true)];
  const wanted = who.trim().toLowerCase();
  const all = (['technician', 'crew'] as const).flatMap((grouping) =>
    jobs.units[grouping].ids.map((id, unit) => ({
      grouping,
      unit,
      id,
      name: named[grouping](id),
      code: coded[grouping](id),
    })),
  );
  const meant = (of: 'id' | 'name' | 'code') => all.filter((one) => one[of].toLowerCase() === wanted);
  // An id goes before a name, a name before a code.
  const [found, ...more] = [meant('id'), meant('name'), meant('code')].find((some) => some.length > 0) ?? [];
  if (found !== undefined && more.length === 0) return { grouping: found.grouping, unit: found.unit };
  if (found !== undefined)
    throw new DryholdError('ambiguous-person', {
      who,
      meant: [found, ...more].map(
        ({ grouping, code, name }) => `${code} (${codes ? grouping : `${grouping} ${name}`})`,
      ),
    });
  const told = all.map((one) => (codes ? one.code : tellingName(one)));
  throw new DryholdError('unknown-person', {
    who,
    known: told.length > mostTold ? [...told.slice(0, mostTold), `and ${told.length - mostTold} more`] : told,
  });
}

function tellingName({ id, name }: { readonly id: string; readonly name: string }): string {
  return id === name ? id : `${name} (${id})`;
}
