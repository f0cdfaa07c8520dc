import { dayOf } from '../numerics/calendar-day.ts';
import type { SharedRates } from '../fleet/shared-rates.ts';
import { topicSkills, trainingResult } from '../fleet/training-results.ts';
import type { TrainingReport } from '../pages/fleet-data.ts';
import type { Store } from '../store/store.ts';
import { technicianNamed } from './fleet-names.ts';
import type { OpenFleet } from './open-fleet.ts';

/** Of which trainings it is told; of all where nothing else is said. */
export interface TrainingsAsked {
  /** How many, the latest, are looked at. */
  readonly latest?: number | undefined;
  /** Whose. */
  readonly technicianIds?: ReadonlySet<string> | undefined;
}

/**
 * What came after trainings, in each skill that they were about.
 *
 * @param rates of the fleet, of whatever groupings
 */
export async function trainingReports(
  store: Store,
  { jobs, names, codes }: OpenFleet,
  rates: SharedRates,
  { latest, technicianIds }: TrainingsAsked = {},
): Promise<TrainingReport[]> {
  const everybodys = await store.rows<{
    training_id: string;
    technician_id: string;
    held_on: string;
    topic: string | null;
  }>(
    `SELECT training_id, technician_id, held_on, topic FROM trainings
     WHERE technician_id IS NOT NULL AND held_on IS NOT NULL ORDER BY held_on, training_id`,
  );
  const all = everybodys.filter((row) => technicianIds?.has(row.technician_id) ?? true);
  const rows = latest === undefined ? all : all.slice(Math.max(0, all.length - latest));
  const placeOf = new Map(jobs.units.technician.ids.map((id, place) => [id, place]));
  return rows.flatMap(({ training_id: trainingId, technician_id: id, held_on: day, topic }): TrainingReport[] => {
    const place = placeOf.get(id);
    const technician = technicianNamed(id, names, codes);
    const training = { trainingId, technician, day, topic: topic ?? '' };
    const about = topicSkills(training.topic);
    if (about.length === 0) return [{ ...training, skill: null, effect: null }];
    return about.map((skill) => ({
      ...training,
      skill: { id: skill.id, title: skill.title },
      effect: place === undefined ? null : trainingResult(jobs, rates.judged(skill), place, dayOf(day)),
    }));
  });
}
