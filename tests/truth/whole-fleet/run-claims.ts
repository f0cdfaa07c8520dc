import { type Claim, claim } from '../claim.ts';
import type { FurtherTable } from '../parts/part.ts';
import type { FleetJob } from './judged-fleet.ts';
import { confusion, coverageClaim, errorClaim, type Named, namedClaims } from './named-claims.ts';

const patterns = ['none', 'low-charge', 'overcharge', 'restriction', 'poor-airflow', 'non-condensables'] as const;

/** What the facts say of run tests, and of what is in the system. */
export function runClaims(jobs: readonly FleetJob[]): { claims: Claim[]; tables: FurtherTable[] } {
  const tested = jobs.filter(({ truth }) => truth.run_pattern !== undefined);
  // What is in the system must be what is on record: superheat and subcooling are counted from that.
  const ran = tested.filter(({ truth, job }) => truth.true_refrigerant === job.refrigerant);
  const named = ran.map(patternNamed);
  const [heads, ...rows] = confusion(named, patterns);
  return {
    claims: [
      ...(['superheat', 'subcooling'] as const).flatMap((of) => differenceClaims(ran, of)),
      ...namedClaims('pattern', named, patterns),
      claim(
        'pattern named where another refrigerant than on record is in the system',
        tested
          .filter((one) => !ran.includes(one))
          .map((one) => {
            const { found = '', says, isUntold, plan } = patternNamed(one);
            const value = found !== 'unclear' && found !== 'none';
            return {
              plan,
              value,
              badness: value ? 1 : 0,
              says: `${one.truth.true_refrigerant} in it; ${says}`,
              isUntold,
            };
          }),
      ),
      ...refrigerantClaims(jobs),
    ],
    tables: [{ title: 'Patterns of running systems', heads, rows }],
  };
}

/** Truth and facts each over a window of their own; instruments that were off their pipe are left out. */
function differenceClaims(ran: readonly FleetJob[], of: 'superheat' | 'subcooling'): Claim[] {
  const known = ran.filter(({ truth }) => truth[`${of}_k`] !== undefined && truth.run_upset === undefined);
  const says = ({ truth, facts }: FleetJob) =>
    `true ${truth[`${of}_k`]?.toFixed(2)} K, found ${facts[`${of}_k`]?.toFixed(2) ?? 'none'} K (${facts[`${of}_low_k`]?.toFixed(2)} to ${facts[`${of}_high_k`]?.toFixed(2)}), ${truth.run_pattern}`;
  return [
    errorClaim(
      `${of}, error`,
      known.map((one) => {
        const [trueK, foundK] = [one.truth[`${of}_k`] ?? 0, one.facts[`${of}_k`]];
        return { plan: one.plan, error: foundK === undefined ? undefined : foundK - trueK, says: says(one) };
      }),
      (kelvin) => `${kelvin.toFixed(2)} K`,
    ),
    coverageClaim(
      `${of} interval holds the truth`,
      known.map((one) => ({
        plan: one.plan,
        truth: one.truth[`${of}_k`] ?? 0,
        low: one.facts[`${of}_low_k`],
        high: one.facts[`${of}_high_k`],
        says: says(one),
      })),
      { least: 0.9 },
    ),
  ];
}

function patternNamed({ plan, truth, facts }: FleetJob): Named {
  const found = facts.run_pattern ?? 'unclear';
  return {
    plan,
    truth: truth.run_pattern,
    found,
    isUntold: found === 'unclear',
    says: `true ${truth.run_pattern}, named ${facts.run_pattern ?? facts.run_problem ?? 'nothing'} (${facts.run_pattern_ratio?.toFixed(2) ?? '–'})${signsText(facts.run_signs)}`,
  };
}

/** What speaks for a pattern, in a few words. */
function signsText(json: string | undefined): string {
  if (json === undefined) return '';
  const signs = JSON.parse(json) as { readonly reading: string; readonly off: number; readonly for: string }[];
  return `: ${signs.map((sign) => `${sign.reading} ${sign.off}${sign.for === '' ? '' : ` for ${sign.for}`}`).join(', ')}`;
}

/** By the cylinder's name, or by the pressure of the system. */
function refrigerantClaims(jobs: readonly FleetJob[]): Claim[] {
  const known = jobs.filter(({ truth, job }) => truth.true_refrigerant !== undefined && job.refrigerant !== undefined);
  const isOther = ({ truth, job }: FleetJob) => truth.true_refrigerant !== job.refrigerant;
  const isSeen = ({ facts }: FleetJob) =>
    facts.weighed_refrigerant !== undefined || facts.likely_refrigerant !== undefined;
  const isUntold = ({ findings }: FleetJob) => findings.get('wrong-refrigerant')?.outcome === 'not-evaluated';
  const says = ({ truth, job, facts }: FleetJob) =>
    `${job.refrigerant} on record, ${truth.true_refrigerant} in it; cylinder says ${facts.weighed_refrigerant ?? 'no other'}, pressure ${facts.likely_refrigerant ?? 'no other'} (by ${facts.refrigerant_seen ?? 'nothing'})`;
  const cases = (of: readonly FleetJob[], isRight: (one: FleetJob) => boolean, countsUntold: boolean) =>
    of.map((one) => ({
      plan: one.plan,
      value: isRight(one),
      badness: isRight(one) ? 0 : 1,
      says: says(one),
      ...(countsUntold ? { isUntold: isUntold(one) } : {}),
    }));
  return [
    claim('another refrigerant than on record: recall', cases(known.filter(isOther), isSeen, true)),
    claim('… precision', cases(known.filter(isSeen), isOther, false)),
    claim(
      '… seen by its pressure where there is none',
      known
        .filter((one) => !isOther(one) && one.facts.likely_refrigerant_ratio !== undefined)
        .map((one) => {
          const value = one.facts.likely_refrigerant !== undefined;
          return { plan: one.plan, value, badness: value ? 1 : 0, says: says(one) };
        }),
      { most: 0.005 },
    ),
  ];
}
