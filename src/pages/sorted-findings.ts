import type { Outcome } from '../checks/check.ts';
import type { JobFinding } from './job-evidence-data.ts';

/** Checks that could not judge for one and the same reason. */
export interface UnjudgedFindings {
  readonly outcome: Outcome;
  /** The reason, in a sentence. */
  readonly text: string;
  readonly questions: readonly string[];
}

/** The findings of a job as people read them. */
export interface SortedFindings {
  /** Those that ask for a look, worst first. */
  readonly flagged: readonly JobFinding[];
  /** What could not be judged, by reason. */
  readonly unjudged: readonly UnjudgedFindings[];
  readonly passed: readonly JobFinding[];
}

/** What is wrong with a system comes before how the work was done; otherwise the order of the work stays. */
export const faultsOfSystems: readonly string[] = [
  'pressure-not-held',
  'leaking',
  'test-pressure-over-design',
  'wet',
  'water-in-system',
  'rise-over-limit',
  'charge-off-target',
  'target-not-reached',
];

/** How pressing a finding is: what is wrong with a system before how the work was done, which all have the rank of no finding. */
export function faultRank(finding: Pick<JobFinding, 'checkId'> | undefined): number {
  const place = faultsOfSystems.indexOf(finding?.checkId ?? '');
  return place < 0 ? faultsOfSystems.length : place;
}

/** Sorts the findings of a job: those to look at worst first, what could not be judged by its reason, what passed. */
export function sortedFindings({ findings }: { readonly findings: readonly JobFinding[] }): SortedFindings {
  const ofOutcome = (outcome: Outcome) => findings.filter((finding) => finding.outcome === outcome);
  const worstFirst = (outcome: Outcome) => ofOutcome(outcome).toSorted((a, b) => faultRank(a) - faultRank(b));
  return {
    flagged: [...worstFirst('fail'), ...worstFirst('suspect')],
    unjudged: [...byReason(ofOutcome('missing')), ...byReason(ofOutcome('not-evaluated'))],
    passed: ofOutcome('pass'),
  };
}

function byReason(findings: readonly JobFinding[]): UnjudgedFindings[] {
  const reasons = new Map<string, JobFinding[]>();
  for (const finding of findings) reasons.set(finding.text, [...(reasons.get(finding.text) ?? []), finding]);
  return [...reasons].map(([text, same]) => ({
    outcome: same[0].outcome,
    text,
    questions: same.map(({ question }) => question),
  }));
}
