import type { Limits, LimitSpecs } from '../../../src/checks/check.ts';
import { checkNamed } from '../../../src/checks/checks.ts';
import { asRecorded, resolveLimits } from '../../../src/checks/policy.ts';
import type { FleetJob } from './judged-fleet.ts';
import { isLeaking, isVisibleDrop } from './pressure-claims.ts';

/** Whether a check should flag a job: by the truth and the limits that it was held against; undefined where the truth does not say. */
type TrueOutcome = (job: FleetJob, limits: Readonly<Record<string, number | string>>) => boolean | undefined;

const lasts = (fromS: number | undefined, toS: number | undefined): number | undefined =>
  fromS === undefined || toS === undefined ? undefined : toS - fromS;
const isolationS = ({ truth }: FleetJob) => lasts(truth.isolation_start_s, truth.isolation_end_s);
const isLogged = ({ facts }: FleetJob) => (facts.vacuum_readings ?? 0) > 0;
const over = (value: number | undefined, limit: number): boolean | undefined =>
  value === undefined ? undefined : value > limit;

/** Checks that the truth of a job can be held against, as the check itself puts its question. */
const trueOutcomes: Readonly<Record<string, TrueOutcome>> = {
  'no-pressure-test': ({ truth }) =>
    truth.pressure_test === 'unlogged' ? undefined : truth.pressure_test === 'skipped',
  'pressure-test-short': ({ truth }, { asked_s, slack_ratio }) => {
    const heldS = lasts(truth.pressure_hold_start_s, truth.pressure_hold_end_s);
    return heldS === undefined ? undefined : heldS < Number(asked_s) * (1 - Number(slack_ratio));
  },
  // Of a leak that loses less than the test says that it tells nothing is claimed.
  'pressure-not-held': (job) => {
    if (job.truth.pressure_test !== 'logged') return undefined;
    if (!isLeaking(job.truth)) return false;
    return isVisibleDrop(job) ? true : undefined;
  },
  'target-not-reached': ({ truth }, { target_pa }) => over(truth.deepest_pa, Number(target_pa)),
  'hold-short': ({ truth }, { hold_s, slack_ratio }) =>
    truth.hold_s === undefined ? undefined : truth.hold_s < Number(hold_s) * (1 - Number(slack_ratio)),
  'water-in-system': ({ truth }) => over(truth.water_kg, 0),
  'no-rise-test': (job, { shortest_s }) =>
    isLogged(job) && job.truth.pulls !== undefined ? (isolationS(job) ?? 0) < Number(shortest_s) : undefined,
  'rise-test-short': (job, { asked_s, slack_ratio }) => {
    const testedS = isolationS(job);
    return testedS === undefined ? undefined : testedS < Number(asked_s) * (1 - Number(slack_ratio));
  },
  leaking: (job, { limit_pa, kind, after_s, dry_ratio, least_pa }) => {
    const { leak_pa_per_s: leak, isolation_start_pa: startPa = 0 } = job.truth;
    const testedS = isolationS(job);
    if (leak === undefined || testedS === undefined) return undefined;
    const roomPa = Number(limit_pa) - (kind === 'level' ? startPa : 0);
    const noMatterPa = Math.max(Number(least_pa), Number(dry_ratio) * roomPa);
    return leak * (Number(after_s) > 0 ? Number(after_s) : testedS) > noMatterPa;
  },
  'charge-off-target': ({ truth }, { suspect_ratio, least_kg }) => {
    const { charge_deviation_kg: deviationKg, charge_target_kg: targetKg } = truth;
    if (deviationKg === undefined || targetKg === undefined) return undefined;
    return Math.abs(deviationKg) > Math.max(Number(least_kg), Number(suspect_ratio) * targetKg);
  },
  'wrong-refrigerant': ({ truth, job }) =>
    truth.true_refrigerant === undefined || job.refrigerant === undefined
      ? undefined
      : truth.true_refrigerant !== job.refrigerant,
  'superheat-off': ({ truth, facts }, { suspect_k, valve_least_k, valve_most_k }) => {
    const { superheat_k: kelvin } = truth;
    if (kelvin === undefined || truth.run_upset !== undefined) return undefined;
    if (facts.metering_kind === 'valve') return kelvin < Number(valve_least_k) || kelvin > Number(valve_most_k);
    return facts.target_superheat_k === undefined
      ? undefined
      : Math.abs(kelvin - facts.target_superheat_k) > Number(suspect_k);
  },
  'subcooling-off': ({ truth, facts }, { short_k, over_k }) => {
    const { subcooling_k: kelvin } = truth;
    const { target_subcooling_k: targetK } = facts;
    if (kelvin === undefined || targetK === undefined || truth.run_upset !== undefined) return undefined;
    return kelvin < targetK - Number(short_k) || kelvin > targetK + Number(over_k);
  },
  'run-pattern': ({ truth }) => (truth.run_pattern === undefined ? undefined : truth.run_pattern !== 'none'),
};

/** Checks that are held against the truth. */
export const truthChecks: readonly string[] = Object.keys(trueOutcomes);

/** Whether a check should have flagged a job; undefined where the truth does not say. */
export function shouldFlag(checkId: string, job: FleetJob): boolean | undefined {
  const check = checkNamed(checkId);
  if (check === undefined) return undefined;
  return trueOutcomes[checkId](job, valuesOf(resolveLimits(check, asRecorded, job.job)));
}

function valuesOf(limits: Limits<LimitSpecs>): Record<string, number | string> {
  return Object.fromEntries(Object.entries(limits).map(([name, { value }]) => [name, value]));
}
