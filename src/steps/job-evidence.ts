import type { Evidence } from '../checks/check.ts';
import { checkNamed, checks } from '../checks/checks.ts';
import { messageText } from '../checks/message-text.ts';
import { judgedSeries, usualTargetPa } from '../facts/vacuum-facts.ts';
import type { JobEvidence, JobFinding } from '../pages/service-manager-data.ts';
import { type Finding, findings as findingsTable } from '../records/tables/findings.ts';
import { type Job, jobs as jobsTable } from '../records/tables/jobs.ts';
import { type ReferenceKey, references } from '../references.ts';
import { streamJobReadings } from '../store/job-stream.ts';
import { recordsBy } from '../store/record-lookup.ts';
import type { Store } from '../store/store.ts';
import { decimate } from '../traces/decimate.ts';
import { findVacuumPhases } from '../traces/vacuum-phases.ts';
import type { UnitSystem } from '../units/display.ts';
import type { PeopleNames } from './people-names.ts';

/** Readings of a trace that a page draws at most. */
const tracePoints = 600;

export interface JobEvidenceOptions {
  readonly policyId: string;
  readonly units: UnitSystem;
  readonly names: PeopleNames;
}

/**
 * What was found on some jobs and the recordings that show it.
 *
 * @param wanted a temporary table with a column `job_id`; the order of its rows is the order of the result
 */
export async function jobEvidence(store: Store, wanted: string, options: JobEvidenceOptions): Promise<JobEvidence[]> {
  const order = await store.rows<{ job_id: string }>(`SELECT job_id FROM temp.${wanted}`);
  const jobs = await recordsBy<Job>(store, jobsTable, 'job_id', `temp.${wanted}`);
  const findings = await recordsBy<Finding>(store, findingsTable, 'job_id', `temp.${wanted}`);
  const traces = new Map<string, Pick<JobEvidence, 'trace' | 'phases'>>();
  for await (const { jobId, series, marks } of streamJobReadings(store, wanted)) {
    const job = jobs.get(jobId)?.[0];
    const judged = judgedSeries({ job, series });
    if (judged === undefined) continue;
    const kept = decimate(judged.vacuumPa, tracePoints);
    const { phases } = findVacuumPhases(judged, job?.vacuum_target_pa ?? usualTargetPa, marks);
    traces.set(jobId, {
      trace: {
        elapsedS: kept.map((index) => judged.elapsedS[index]),
        vacuumPa: kept.map((index) =>
          judged.vacuumPa[index] === Number.POSITIVE_INFINITY ? null : judged.vacuumPa[index],
        ),
        over: kept.map((index) => judged.vacuumPa[index] === Number.POSITIVE_INFINITY),
      },
      phases: phases.map(({ phase, startS, endS }) => ({ phase, startS, endS })),
    });
  }
  return order.map(({ job_id: jobId }) => {
    const job = jobs.get(jobId)?.[0];
    const found = (findings.get(jobId) ?? []).filter((finding) => finding.policy_id === options.policyId);
    return {
      jobId,
      startedAt: job?.started_at ?? '',
      technician: options.names(job?.technician_id),
      crewId: job?.crew_id ?? null,
      systemId: job?.system_id ?? null,
      siteId: job?.site_id ?? null,
      refrigerant: job?.refrigerant ?? null,
      workType: job?.work_type ?? null,
      findings: checks.flatMap((check) =>
        found.filter((finding) => finding.check_id === check.id).map((finding) => jobFinding(finding, options.units)),
      ),
      trace: traces.get(jobId)?.trace ?? null,
      phases: traces.get(jobId)?.phases ?? [],
      limits: limitLines(found),
    };
  });
}

function jobFinding(finding: Finding, units: UnitSystem): JobFinding {
  const check = checkNamed(finding.check_id);
  return {
    checkId: finding.check_id,
    question: check?.question ?? finding.check_id,
    outcome: finding.outcome,
    text: check === undefined ? finding.message_id : messageText(check, finding.message_id, evidenceOf(finding), units),
    basis: limitBasis(evidenceOf(finding)),
    teach: check?.teach ?? '',
  };
}

/** Where the limits of a finding come from, in a sentence; empty where it was held against none. */
function limitBasis(evidence: Evidence): string {
  const sources = Object.entries(evidence).flatMap(([name, value]) => (name.endsWith('_source') ? [value] : []));
  const named = [...new Set(sources)].map((source) =>
    source === 'record' ? "the job's own record" : (references[source as ReferenceKey]?.citation ?? String(source)),
  );
  return named.length === 0 ? '' : `Limit: ${named.join('; ')}.`;
}

/** The pressures that the findings held the trace against. */
function limitLines(findings: readonly Finding[]): JobEvidence['limits'] {
  const lines: JobEvidence['limits'] = [];
  const evidence = (checkId: string) => evidenceOf(findings.find((finding) => finding.check_id === checkId));
  const target = evidence('target-not-reached').target_pa;
  if (typeof target === 'number') lines.push({ label: 'target', pa: target });
  const rise = evidence('rise-over-limit');
  if (typeof rise.limit_pa === 'number') {
    if (rise.limit_kind === 'level') lines.push({ label: 'limit after isolation', pa: rise.limit_pa });
    else if (typeof rise.isolation_pa === 'number')
      lines.push({ label: 'allowed rise', pa: rise.isolation_pa + rise.limit_pa });
  }
  return lines;
}

/** The evidence of a finding; empty where there is none. */
function evidenceOf(finding: Finding | undefined): Evidence {
  return finding?.evidence === undefined ? {} : (JSON.parse(finding.evidence) as Evidence);
}
