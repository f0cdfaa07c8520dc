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

/** The findings of every check of which the truth tells what it should say. */
export function findingClaims(jobs: readonly FleetJob[]): { claims: Claim[]; tables: FurtherTable[] } {
  const unheld = checks.filter(({ id }) => !truthChecks.includes(id)).map(({ id }) => [id]);
  return {
    claims: truthChecks.flatMap((checkId) => claimsOf(checkId, judgedBy(checkId, jobs))),
    tables: [{ title: 'Checks without a truth of jobs to be held against', heads: ['check'], rows: unheld }],
  };
}

function judgedBy(checkId: string, jobs: readonly FleetJob[]): Judged[] {
  return jobs.flatMap((one) => {
    const finding = one.findings.get(checkId);
    const should = shouldFlag(checkId, one);
    if (finding === undefined || should === undefined) return [];
    const { outcome, message } = finding;
    return [{ one, outcome, should, says: `should ${should ? 'be flagged' : 'pass'}, is ${outcome}: ${message}` }];
  });
}

function claimsOf(checkId: string, judged: readonly Judged[]): Claim[] {
  const isFlagged = ({ outcome }: Judged) => outcome === 'fail' || outcome === 'suspect';
  const isUntold = ({ outcome }: Judged) => outcome === 'not-evaluated' || outcome === 'missing';
  const precision = (word: 'fail' | 'suspect') =>
    claim(
      `… of what is called ${word} right`,
      judged
        .filter(({ outcome }) => outcome === word)
        .map(({ one, should, says }) => ({ plan: one.plan, value: should, badness: should ? 0 : 1, says })),
    );
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
    precision('fail'),
    precision('suspect'),
  ];
}
