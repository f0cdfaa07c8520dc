import type { LifeTableRow } from '../../charts/called-back-by-age.ts';
import { type Outcome, outcomes } from '../../checks/check.ts';
import { checks } from '../../checks/checks.ts';
import { groupOfJobs, jobGroups } from '../../fleet/callbacks/callback-free.ts';
import { lifeTableCounts } from '../../fleet/callbacks/life-table-counts.ts';
import { wilsonInterval } from '../../numerics/wilson-interval.ts';
import type { CallbackReport, RiskReport } from '../../pages/callback-data.ts';
import { groupWords } from '../../pages/callback-text.ts';
import { coarseRows } from '../../pages/coarse-rows.ts';
import { sendBackList } from '../../pages/send-back.ts';
import type { JobEvidence } from '../../pages/job-evidence-data.ts';
import type { CheckCount, ServiceManagerData, TechnicianCount } from '../../pages/service-manager-data.ts';
import type { InUnits } from '../../units/in-units.ts';
import { query } from '../../store/sql.ts';
import type { Store } from '../../store/store.ts';
import { limitPoints, mostLimitPoints } from './limit-points.ts';
import { technicianNamed } from '../fleet-names.ts';
import { reportNotes } from './report-notes.ts';
import type { ReportCells } from './report-cells.ts';
import type { EvidenceByJob, FlaggedJobs } from './report-jobs.ts';
import type { ReportScope } from './report-scope.ts';
import { weekFigures } from './week-figures.ts';

/** Of more rows a page carries coarser ones. */
const mostLifeTableRows = 40_000;

/** All that the service manager's page says. */
export async function serviceManagerData(
  scope: ReportScope,
  reports: { readonly callbacks: CallbackReport; readonly risk: InUnits<RiskReport> },
  { evidence, flagged }: { readonly evidence: EvidenceByJob; readonly flagged: FlaggedJobs },
  cells: ReportCells,
): Promise<InUnits<ServiceManagerData>> {
  const { store, policy, period, counts } = scope;
  const week = await weekFigures(scope);
  const fixed = {
    policyId: policy.id,
    policyTitle: policy.title,
    period,
    jobs: counts.jobs,
    jobsJudged: counts.judged,
    jobsFlagged: counts.flagged,
    week,
    callbacks: reports.callbacks,
    checks: await checkCounts(store, policy.id),
    cells: cells.jobCells,
    technicians: await technicianCounts(scope, cells),
    lifeTable: coarseRows(lifeTable(scope, cells), ['began', 'late', 'left', 'called'], mostLifeTableRows),
    limitPoints: await limitPoints(store, policy.id, mostLimitPoints),
    notes: await reportNotes(store),
    jobPages: new Set(evidence.keys()),
  };
  return (units) => {
    const of = (jobId: string): JobEvidence[] => {
      const found = evidence.get(jobId);
      return found === undefined ? [] : [found(units)];
    };
    const risk = reports.risk(units);
    const watched = risk.watchList.flatMap((job) => of(job.jobId).map((found) => ({ job, evidence: found })));
    const sendBack = sendBackList(flagged.visits.flatMap(of), watched);
    return {
      ...fixed,
      risk,
      lookAt: flagged.lookAt.flatMap(of),
      sendBack,
      // Beyond those that are told there are only some that failed.
      sendBackOf: sendBack.length + flagged.visitsOf - flagged.visits.length,
    };
  };
}

async function checkCounts(store: Store, policyId: string): Promise<CheckCount[]> {
  const rows = await store.rows<{ check_id: string; outcome: Outcome; n: number }>(query('check-counts'), [policyId]);
  return checks.map(({ id, question }) => {
    const counts = Object.fromEntries(
      outcomes.map((outcome) => [outcome, rows.find((row) => row.check_id === id && row.outcome === outcome)?.n ?? 0]),
    );
    return {
      checkId: id,
      question,
      pass: counts.pass,
      suspect: counts.suspect,
      fail: counts.fail,
      notEvaluated: counts['not-evaluated'],
      missing: counts.missing,
    };
  });
}

/** Of the technicians that the charts tell apart. */
async function technicianCounts(
  { store, codes }: ReportScope,
  { kept, nameOf }: ReportCells,
): Promise<TechnicianCount[]> {
  const rows = await store.rows<{
    technician_id: string;
    crew_id: string | null;
    judged: number;
    flagged: number;
    not_judged: number;
  }>(query('technician-counts'));
  return rows.flatMap((row) => {
    const name = kept.technicians.get(row.technician_id);
    if (name === undefined) return [];
    const { low, high } = wilsonInterval(row.flagged, row.judged);
    const crewId = row.crew_id === null ? null : nameOf.crew(row.crew_id);
    return [
      {
        technicianId: technicianNamed(row.technician_id, nameOf, codes).id,
        name,
        crewId,
        judged: row.judged,
        flagged: row.flagged,
        low,
        high,
        notJudged: row.not_judged,
      },
    ];
  });
}

/** How jobs were watched, by what was found on them and by what charts can be narrowed to. */
function lifeTable({ open: { fleet, followed } }: ReportScope, { cells, cellOf }: ReportCells): LifeTableRow[] {
  const groupOf = groupOfJobs(fleet.jobs);
  const groups = jobGroups.length;
  const kindOf = (job: number) => (cellOf[job] < 0 ? -1 : cellOf[job] * groups + groupOf[job]);
  return lifeTableCounts(followed, kindOf).map(({ kind, ...counts }) => {
    const { month, crew, technician, refrigerant } = cells[Math.floor(kind / groups)];
    return { month, crew, technician, refrigerant, group: groupWords[jobGroups[kind % groups]], ...counts };
  });
}
