import type { SkillCell } from '../../charts/skill-cell.ts';
import { type FunnelLimitRow, funnelLimitRows } from '../../charts/skill-funnel.ts';
import { jobsByUnit } from '../../fleet/jobs-by-unit.ts';
import { skillOutcome } from '../../fleet/skill.ts';
import type { SkillRates } from '../../fleet/skill-rates.ts';
import { funnelCurve } from '../../fleet/statistics/funnel-curve.ts';
import { coarseRows } from '../../pages/coarse-rows.ts';
import type { CoachReport } from '../../pages/coach-data.ts';
import type { FleetReport } from '../../pages/fleet-data.ts';
import { pageFileName } from '../../pages/page-file-name.ts';
import type { TrainerData } from '../../pages/trainer-data.ts';
import type { InUnits } from '../../units/in-units.ts';
import { technicianNamed } from '../fleet-names.ts';
import type { ReportCells } from './report-cells.ts';
import type { ReportScope } from './report-scope.ts';

/** Of more rows a page counts by quarter or by year. */
const mostSkillCells = 30_000;

/** A coaching sheet and the file of its page. */
export interface Sheet {
  readonly file: string;
  readonly report: InUnits<CoachReport>;
}

/** The file of somebody's sheet. */
export function sheetFile({ kind, id }: CoachReport['who']): string {
  return pageFileName(`${kind}-${id}`);
}

/** All that the trainer's page says. */
export async function trainerData(
  { store, policy, open, codes }: ReportScope,
  reports: { readonly fleet: FleetReport; readonly sheets: readonly Sheet[] },
  { kept, jobCells, cells, cellOf }: ReportCells,
  jobPages: ReadonlySet<string>,
): Promise<InUnits<TrainerData>> {
  const { jobs, rates, names } = open.fleet;
  const [{ trainings }] = await store.rows<{ trainings: number }>('SELECT count(*) AS trainings FROM trainings');
  const all = rates.all();
  const fixed = {
    policyTitle: policy.title,
    fleet: reports.fleet,
    trainingsOnRecord: trainings,
    people: (['technician', 'crew'] as const).reduce(
      (sum, grouping) => sum + jobsByUnit(jobs.units[grouping]).filter(({ length }) => length > 0).length,
      0,
    ),
    everyone: { crews: jobCells.crews, technicians: jobCells.technicians },
    skillCells: coarseRows(
      all.flatMap((one) => skillCellsOf(one, cells, cellOf)),
      ['jobs', 'judged', 'found', 'expected'],
      mostSkillCells,
    ),
    funnelLimits: all.flatMap(funnelOf),
    technicians: [...kept.technicians]
      .map(([id, label]) => ({ label, id: technicianNamed(id, names, codes).id }))
      .sort((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true })),
    jobPages,
  };
  return (units) => ({ ...fixed, sheets: reports.sheets.map(({ file, report }) => ({ file, report: report(units) })) });
}

/** Between which limits chance lies in one skill; none where nothing was found, or everything. */
function funnelOf({ skill, fleet: { found, jobs }, groupings }: SkillRates): FunnelLimitRow[] {
  if (found === 0 || found === jobs) return [];
  const technicians = groupings.find(({ grouping }) => grouping === 'technician')?.tallies ?? [];
  const largest = technicians.reduce((most, { expected }) => Math.max(most, expected), 1);
  return funnelLimitRows(skill.id, funnelCurve(found / jobs, largest));
}

/** What was found and expected in one skill, by the cells of the jobs. */
function skillCellsOf(
  { skill, outcomes, chances }: SkillRates,
  cells: ReportCells['cells'],
  cellOf: Int32Array,
): SkillCell[] {
  const [counts, judged, found, expected] = [0, 1, 2, 3].map(() => new Float64Array(cells.length));
  for (const [job, cell] of cellOf.entries()) {
    if (cell < 0) continue;
    counts[cell] += 1;
    if (outcomes[job] < skillOutcome.clean) continue;
    judged[cell] += 1;
    expected[cell] += chances[job];
    if (outcomes[job] === skillOutcome.found) found[cell] += 1;
  }
  return cells.flatMap(({ month, crew, technician, refrigerant }, cell) =>
    counts[cell] === 0
      ? []
      : [
          {
            month,
            crew,
            technician,
            refrigerant,
            skill: skill.id,
            jobs: counts[cell],
            judged: judged[cell],
            found: found[cell],
            expected: expected[cell],
          },
        ],
  );
}
