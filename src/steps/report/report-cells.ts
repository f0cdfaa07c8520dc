import { coarseRows } from '../../pages/coarse-rows.ts';
import type { JobCells } from '../../pages/service-manager-data.ts';
import { type JobCell, type KeptApart, readCellsOfJobs, readJobCells } from '../../store/job-cells.ts';
import type { PeopleNames } from '../people-names.ts';
import { keptApart } from './kept-apart.ts';
import { labelText } from '../label-text.ts';
import type { ReportScope } from './report-scope.ts';

/** Judged jobs by month, crew, technician and refrigerant, and where each job of the fleet is counted. */
export interface ReportCells {
  readonly kept: KeptApart;
  readonly nameOf: PeopleNames;
  readonly cells: readonly JobCell[];
  /** By place in the fleet: the place of the job's cell; −1 where it has none. */
  readonly cellOf: Int32Array;
  /** The same counts as a page carries them. */
  readonly jobCells: JobCells;
}

/** Of more, a page counts by quarter or by year. */
const mostCells = 40_000;

export async function reportCells({ store, open: { fleet } }: ReportScope): Promise<ReportCells> {
  const kept = keptApart(fleet);
  const cells = (await readJobCells(store, kept)).map((cell) => ({
    ...cell,
    refrigerant: labelText(cell.refrigerant),
  }));
  return {
    kept,
    nameOf: fleet.names,
    cells,
    cellOf: await readCellsOfJobs(store, fleet.jobs.count),
    jobCells: {
      ...coarseRows(cells, ['jobs', 'judged', 'flagged'], mostCells),
      crews: fleet.summary.crews,
      technicians: fleet.summary.technicians,
    },
  };
}
