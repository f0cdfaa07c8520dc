import type { ColumnView } from './column-view.ts';
import { meaningByName } from './meaning.ts';

/** The tables of which a file may be a list. */
export type RecordTable = 'jobs' | 'weighings' | 'callbacks' | 'cylinders' | 'people';

/** Which list a table is, by the names of its columns; undefined where these are not clear. */
export function recordTableOf(views: readonly ColumnView[]): RecordTable | undefined {
  const names = (table: string) => new Set(views.flatMap((view) => meaningByName(table, view)?.column.name ?? []));
  const has = (table: string, ...wanted: string[]) => wanted.every((name) => names(table).has(name));
  if (has('weighings', 'start_kg', 'end_kg') || has('weighings', 'weighing_id')) return 'weighings';
  if (
    has('callbacks', 'callback_id') ||
    (has('callbacks', 'reported_at') && (has('callbacks', 'cause_found') || has('callbacks', 'reason')))
  )
    return 'callbacks';
  const ofCylinder = ['net_kg', 'tare_kg', 'capacity_kg', 'closing_kg', 'acquired_on', 'closed_on'];
  if (has('cylinders', 'cylinder_id') && ofCylinder.some((name) => has('cylinders', name))) return 'cylinders';
  const jobs = names('jobs');
  const job = views.find((view) => meaningByName('jobs', view)?.column.name === 'job_id');
  const unique = job !== undefined && job.texts.length > 0 && new Set(job.texts).size >= job.texts.length * 0.8;
  if (unique && jobs.size >= 3 && jobs.has('started_at')) return 'jobs';
  if (has('people', 'technician_id', 'display_name') && job === undefined) return 'people';
  return undefined;
}
