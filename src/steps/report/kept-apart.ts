import type { KeptApart } from '../../store/job-cells.ts';
import type { OpenFleet } from '../open-fleet.ts';
import { mostApart } from './most-apart.ts';
import { uniqueLabels } from '../unique-labels.ts';
import { whoNeedsSheets } from '../who-needs-sheets.ts';

/**
 * Who is told apart in the charts of a report: all, or in a large fleet those who need a coaching sheet and those with the most jobs. No two are called
 * the same.
 */
export function keptApart(fleet: OpenFleet): KeptApart {
  return { technicians: kept(fleet, 'technician', mostApart.technicians), crews: kept(fleet, 'crew', mostApart.crews) };
}

function kept(fleet: OpenFleet, grouping: 'technician' | 'crew', most: number): ReadonlyMap<string, string> {
  const { jobs, names } = fleet;
  const { ids, of } = jobs.units[grouping];
  const counts = new Float64Array(ids.length);
  for (const unit of of) if (unit >= 0) counts[unit] += 1;
  const needing = whoNeedsSheets(fleet, most).flatMap((one) => (one.grouping === grouping ? [one.unit] : []));
  const byJobs = [...ids.keys()].filter((unit) => counts[unit] > 0).sort((a, b) => counts[b] - counts[a] || a - b);
  const chosen = [...new Set([...needing, ...byJobs])].slice(0, most).map((unit) => ids[unit]);
  return uniqueLabels(chosen, names[grouping]);
}
