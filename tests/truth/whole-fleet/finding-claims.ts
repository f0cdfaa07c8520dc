import { checks } from '../../../src/checks/checks.ts';
import { type Claim, claim } from '../claim.ts';
import type { FurtherTable } from '../parts/part.ts';
import type { FleetJob } from './judged-fleet.ts';
import { shouldFlag, truthChecks } from './true-outcomes.ts';

interface Judged {
  readonly one: FleetJob;
  readonly outcome: string;
  readonly should: boolean;
  readonly says: string;
}

/**
 * The findings of every check of which the truth tells what it should say.
 *
 * @param ownJobs those whose log is their own and as it was recorded; all others together are told apart from them
 */
export function findingClaims(
  jobs: readonly FleetJob[],
  ownJobs: readonly FleetJob[],
): { claims: Claim[]; tables: FurtherTable[] } {
  const unheld = checks.filter(({ id }) => !truthChecks.includes(id)).map(({ id }) => [id]);
  return {
    claims: [
      ...truthChecks.flatMap((checkId) => claimsOf(checkId, judgedBy(checkId, ownJobs))),
      ...together('all checks, logs as they were recorded', ownJobs),
      ...together(
        'all checks, logs in which something went wrong',
        jobs.filter(({ truth }) => truth.recording_fault !== undefined),
      ),
      ...together(
        'all checks, logs with pressures of another job',
        jobs.filter(({ truth }) => truth.copied_from_job_id !== undefined),
      ),
    ],
    tables: [{ title: 'Checks without a truth of jobs to be held against', heads: ['check'], rows: unheld }],
  };
}

function judgedBy(checkId: string, jobs: readonly FleetJob[]): Judged[] {
  return jobs.flatMap((one) => {
    const finding = one.findings.get(checkId);
    const should = shouldFlag(checkId, one);
    if (finding === undefined || should === undefined) return [];
    const { outcome, message } = finding;
    return [
      { one, outcome, should, says: `${checkId} should ${should ? 'be flagged' : 'pass'}, is ${outcome}: ${message}` },
    ];
  });
}

function claimsOf(checkId: string, judged: readonly Judged[]): Claim[] {
  const isFlagged = ({ outcome }: Judged) => outcome === 'fail' || outcome === 'suspect';
  const isUntold = ({ outcome }: Judged) => outcome === 'not-evaluated' || outcome === 'missing';
  return [
    claim(
      `${checkId}: flagged where it should be`,
      judged
        .filter(({ should }) => should)
        .map((each) => ({
          plan: each.one.plan,
          value: isFlagged(each),
          badness: isFlagged(each) ? 0 : isUntold(each) ? 1 : 2,
          says: each.says,
          isUntold: isUntold(each),
        })),
    ),
    ...(['fail', 'suspect', 'pass'] as const).map((outcome) =>
      rightOf(`… of what is told ${outcome} right`, judged, outcome),
    ),
  ];
}

/** How much of what is told is right, all checks together. */
function together(what: string, jobs: readonly FleetJob[]): Claim[] {
  const judged = truthChecks.flatMap((checkId) => judgedBy(checkId, jobs));
  return (['fail', 'suspect', 'pass'] as const).map((outcome) =>
    rightOf(`${what}: of what is told ${outcome} right`, judged, outcome),
  );
}

function rightOf(what: string, judged: readonly Judged[], of: 'fail' | 'suspect' | 'pass'): Claim {
  return claim(
    what,
    judged
      .filter(({ outcome }) => outcome === of)
      .map(({ one, should, says }) => {
        const value = should === (of !== 'pass');
        return { plan: one.plan, value, badness: value ? 0 : 1, says };
      }),
  );
}
