import type { CallbackRisk } from '../../../src/fleet/callbacks/callback-risk.ts';
import { openJobs, watchList } from '../../../src/fleet/callbacks/watch-list.ts';
import { jobIdsAt } from '../../../src/store/job-ids-at.ts';
import { openCallbacks } from '../../../src/steps/open-callbacks.ts';
import { callbackReport } from '../../../src/steps/callback-report.ts';
import { riskReport } from '../../../src/steps/risk-report.ts';
import { type Claim, claim } from '../claim.ts';
import type { FleetJob, JudgedFleet } from './judged-fleet.ts';
import { coverageClaim, namedClaims } from './named-claims.ts';

/** A year's hazard of callbacks that have nothing to do with the job, as the simulation has it. */
const UNRELATED_HAZARD = 0.05;

/** Risks of open jobs beside their true chances, and causes of callbacks beside the true ones. */
export async function callbackClaims(fleet: JudgedFleet): Promise<Claim[]> {
  return [...(await riskClaims(fleet)), ...(await causeClaims(fleet))];
}

interface Risk {
  readonly jobId: string;
  readonly risk: CallbackRisk;
}

async function riskClaims(fleet: JudgedFleet): Promise<Claim[]> {
  const { store, jobs } = fleet;
  const options = { codes: false } as const;
  const {
    watchList: listed,
    windowDays,
    openJobs: open,
    noList,
  } = await riskReport(store, { ...options, units: 'si' });
  const { courses, period, lastDay, models } = await openCallbacks(store, options);
  const { risk: model } = models;
  const likely = model === undefined ? [] : watchList(openJobs(courses, period, lastDay, windowDays), model);
  const ids = await jobIdsAt(
    store,
    likely.map(({ job }) => job),
  );
  const byModel = likely.map(({ job, risk }) => ({ jobId: ids.get(job) ?? '', risk }));
  const truths = new Map(jobs.map((one) => [one.truth.job_id, one]));
  return [
    ...risksBeside('risks on the list of open jobs', { listed, windowDays, open, truths, note: noList ?? '' }),
    ...risksBeside('risks of all open jobs, list or none', { listed: byModel, windowDays, open, truths, note: '' }),
  ];
}

function risksBeside(
  what: string,
  {
    listed,
    windowDays,
    open,
    truths,
    note,
  }: {
    readonly listed: readonly Risk[];
    readonly windowDays: number;
    readonly open: number;
    readonly truths: ReadonlyMap<string, FleetJob>;
    /** Why there is no list; empty where there is one. */
    readonly note: string;
  },
): Claim[] {
  const told = listed.flatMap(({ jobId, risk }) => {
    const one = truths.get(jobId);
    if (one?.truth.callback_risk === undefined) return [];
    const perYear = UNRELATED_HAZARD - Math.log1p(-one.truth.callback_risk);
    const chance = -Math.expm1((-perYear * windowDays) / 365);
    const says = `true ${chance.toFixed(3)}, told ${risk.risk.toFixed(3)} (${risk.low.toFixed(3)} to ${risk.high.toFixed(3)})`;
    return [{ plan: one.plan, chance, risk, says }];
  });
  const figure = (of: string, value: number, beside = ''): Claim => ({
    ...claim(of, told.length === 0 ? [] : [{ plan: told[0].plan, value, badness: 0, says: '' }], {
      write: (one) => `${one.toFixed(3)}${beside}`,
    }),
    ...(note === '' ? {} : { measured: `no list: ${note}` }),
    cases: open,
    notTold: open - told.length,
  });
  const chances = told.map(({ chance }) => chance);
  const risks = told.map(({ risk }) => risk.risk);
  const sum = (all: readonly number[]) => all.reduce((added, one) => added + one, 0);
  return [
    figure(
      `${what}: discrimination to be expected (area under the curve)`,
      discrimination(risks, chances),
      `; by the true chances ${discrimination(chances, chances).toFixed(3)}`,
    ),
    figure('… callbacks told over the true chances', sum(risks) / sum(chances)),
    coverageClaim(
      '… the interval of a risk holds the true chance',
      told.map(({ plan, chance, risk, says }) => ({ plan, truth: chance, low: risk.low, high: risk.high, says })),
    ),
  ];
}

/** The chance that of two jobs, one that calls back and one that does not by their chances, the first has the higher score; ties half. */
export function discrimination(scores: readonly number[], chances: readonly number[]): number {
  const order = Array.from(scores.keys()).sort((a, b) => scores[a] - scores[b]);
  let [pairs, right, notBelow] = [0, 0, 0];
  const all = chances.reduce((sum, chance) => sum + 1 - chance, 0);
  for (let at = 0; at < order.length; ) {
    let end = at;
    while (end < order.length && scores[order[end]] === scores[order[at]]) end += 1;
    const tied = order.slice(at, end).map((index) => chances[index]);
    const tiedNot = tied.reduce((sum, chance) => sum + 1 - chance, 0);
    for (const chance of tied) {
      // No job is held beside itself.
      right += chance * (notBelow + (tiedNot - (1 - chance)) / 2);
      pairs += chance * (all - (1 - chance));
    }
    notBelow += tiedNot;
    at = end;
  }
  return right / pairs;
}

async function causeClaims({ store, seed }: JudgedFleet): Promise<Claim[]> {
  const { entries } = await callbackReport(store, { codes: false });
  const truths = await store.rows<{ callback_id: string; job_id: string; caused_by: string }>(
    'SELECT t.callback_id, t.job_id, t.caused_by FROM callback_truth t JOIN callbacks USING (callback_id)',
  );
  const told = new Map(entries.map((one) => [one.callbackId, one]));
  const plan = (id: string) => ({ seed, number: Number(id.replaceAll(/\D/g, '')), kind: id });
  return [
    ...namedClaims(
      'cause of a callback:',
      truths.map(({ callback_id: id, caused_by: by }) => {
        const found = told.get(id)?.cause.cause ?? 'unknown';
        const { reason, causeFound } = told.get(id) ?? {};
        return {
          plan: plan(id),
          truth: by === 'unrelated' ? 'other' : 'commissioning',
          found,
          isUntold: found === 'unknown',
          says: `${by}; said "${reason}", found "${causeFound ?? 'nothing'}": ${found}`,
        };
      }),
      ['commissioning', 'other'],
    ),
    claim(
      'a callback traced to the job that it came after',
      truths.map(({ callback_id: id, job_id: jobId }) => {
        const found = told.get(id)?.jobId ?? undefined;
        const value = found === jobId;
        return {
          plan: plan(id),
          value,
          badness: value ? 0 : found === undefined ? 1 : 2,
          says: `${jobId}, found ${found ?? told.get(id)?.tracedBy}`,
          isUntold: found === undefined,
        };
      }),
    ),
  ];
}
