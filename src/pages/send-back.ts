import { checkNamed } from '../checks/checks.ts';
import type { CallbackRisk } from '../fleet/callbacks/callback-risk.ts';
import type { WatchedJob } from './callback-data.ts';
import { type RevisitText, revisitText } from './revisit-text.ts';
import type { JobEvidence, JobFinding } from './job-evidence-data.ts';
import { faultRank, sortedFindings } from './sorted-findings.ts';

/** A job to go back to before the customer rings. */
export interface SendBack {
  readonly job: Pick<
    JobEvidence,
    'jobId' | 'startedAt' | 'technician' | 'crewId' | 'systemId' | 'siteId' | 'refrigerant' | 'workType'
  >;
  /** Whether a test of it failed, or it is on the watch list alone. */
  readonly outcome: 'fail' | 'watch';
  /** What speaks for it, the heaviest first. */
  readonly why: readonly Pick<JobFinding, 'question' | 'text'>[];
  /** Whether both leak tests tell the same, in a sentence; empty where they do. */
  readonly contradiction: string;
  /** So many findings more than these. */
  readonly moreFindings: number;
  /** What to do there, by all findings on the system. */
  readonly visits: readonly RevisitText[];
  /** Chance of a callback, and how many times that of any job of its age; null where that cannot be told. */
  readonly risk: CallbackRisk | null;
  readonly times: number | null;
}

/** Findings that are told of each job. */
const mostWhy = 2;
/** A job on the watch list alone is gone back to where its risk is so many times that of any job of its age. Common practice, no source. */
const leastTimes = 2;

/**
 * Whom to send back where, the most pressing first: open jobs whose tests found something wrong with the system, then open jobs that are
 * likeliest to call back, then those whose work failed otherwise. A finding on the recording alone sends nobody back.
 *
 * @param failed open jobs of the last week of which something failed that asks for a visit
 * @param watched the watch list, likeliest first
 */
export function sendBackList(
  failed: readonly JobEvidence[],
  watched: readonly { readonly job: WatchedJob; readonly evidence: JobEvidence }[],
): SendBack[] {
  const risks = new Map(watched.map(({ job }) => [job.jobId, job]));
  const ranked = failed
    .flatMap((job) => {
      const reasons = sortedFindings(job).flagged.filter(asksForVisit);
      if (!reasons.some(({ outcome }) => outcome === 'fail')) return [];
      const ranks = reasons.flatMap((finding) => (finding.outcome === 'fail' ? [faultRank(finding)] : []));
      return [{ entry: sendBack(job, 'fail', reasons, risks.get(job.jobId)), rank: Math.min(...ranks) }];
    })
    .sort((a, b) => a.rank - b.rank);
  const known = new Set(ranked.map(({ entry }) => entry.job.jobId));
  const likely = watched
    .filter(({ job }) => job.times >= leastTimes && !known.has(job.jobId))
    .map(({ job, evidence }) =>
      sendBack(evidence, 'watch', sortedFindings(evidence).flagged.filter(asksForVisit), job),
    );
  return [
    ...ranked.filter(({ rank }) => rank < faultRank(undefined)).map(({ entry }) => entry),
    ...likely,
    ...ranked.filter(({ rank }) => rank === faultRank(undefined)).map(({ entry }) => entry),
  ];
}

/** Whether a finding says something of the system, and not of the record alone. */
function asksForVisit({ checkId }: JobFinding): boolean {
  return checkNamed(checkId)?.revisit !== 'record';
}

function sendBack(
  job: JobEvidence,
  outcome: SendBack['outcome'],
  reasons: readonly JobFinding[],
  watched: WatchedJob | undefined,
): SendBack {
  const { jobId, startedAt, technician, crewId, systemId, siteId, refrigerant, workType } = job;
  const told = reasons.slice(0, mostWhy);
  const kinds = new Set(reasons.flatMap(({ checkId }) => checkNamed(checkId)?.revisit ?? []));
  return {
    job: { jobId, startedAt, technician, crewId, systemId, siteId, refrigerant, workType },
    outcome,
    why: told.map(({ question, text }) => ({ question, text })),
    contradiction: job.contradiction,
    moreFindings: reasons.length - told.length,
    visits: kinds.size === 0 ? [...(watched?.onSite ?? [])] : [...kinds].map(revisitText),
    risk: watched?.risk ?? null,
    times: watched?.times ?? null,
  };
}
