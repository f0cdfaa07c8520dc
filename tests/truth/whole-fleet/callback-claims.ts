import type { CallbackRisk } from '../../../src/fleet/callbacks/callback-risk.ts';
import { openJobs, watchList } from '../../../src/fleet/callbacks/watch-list.ts';
import { jobIdsAt } from '../../../src/store/job-ids-at.ts';
import { openCallbacks } from '../../../src/steps/open-callbacks.ts';
import { callbackReport } from '../../../src/steps/callback-report.ts';
import { riskReport } from '../../../src/steps/risk-report.ts';
import { type Claim, claim } from '../claim.ts';
import type { FleetJob, JudgedFleet } from './judged-fleet.ts';
import { namedClaims } from './named-claims.ts';

/** Risks of open jobs beside their true chances, and causes of callbacks beside the true ones. */
export async function callbackClaims(fleet: JudgedFleet): Promise<Claim[]> {
  return [...(await riskClaims(fleet)), ...(await causeClaims(fleet))];
}

/** Risks are held against the truth in so many parts, from the highest on: of one job alone no risk is said. */
const fifths = 5;

interface Risk {
  readonly jobId: string;
  /** Over so many days. */
  readonly days: number;
  readonly risk: CallbackRisk;
}

async function riskClaims({ store, jobs }: JudgedFleet): Promise<Claim[]> {
  const options = { codes: false } as const;
  const {
    watchList: list,
    windowDays,
    horizonDays,
    openJobs: open,
    noList,
  } = await riskReport(store, {
    ...options,
    units: 'si',
  });
  const { courses, period, lastDay, models } = await openCallbacks(store, options);
  const { risk: model } = models;
  const likely = model === undefined ? [] : watchList(openJobs(courses, period, lastDay, windowDays), model);
  const ids = await jobIdsAt(
    store,
    likely.map(({ job }) => job),
  );
  const byModel = likely.map(({ job, ageDays, endDays, risk }) => ({
    jobId: ids.get(job) ?? '',
    days: endDays - ageDays,
    risk,
  }));
  const listed = list.map(({ jobId, ageDays, risk }) => ({
    jobId,
    days: Math.min(horizonDays, ageDays + windowDays) - ageDays,
    risk,
  }));
  const truths = new Map(jobs.map((one) => [one.truth.job_id, one]));
  return [
    ...risksBeside('risks on the list of open jobs', { listed, open, truths, note: noList ?? '' }),
    ...risksBeside('risks of all open jobs, list or none', { listed: byModel, open, truths, note: '' }),
  ];
}

function risksBeside(
  what: string,
  {
    listed,
    open,
    truths,
    note,
  }: {
    readonly listed: readonly Risk[];
    readonly open: number;
    readonly truths: ReadonlyMap<string, FleetJob>;
    /** Why there is no list; empty where there is one. */
    readonly note: string;
  },
): Claim[] {
  const inOrder = listed.toSorted((a, b) => b.risk.risk - a.risk.risk);
  const told = inOrder.flatMap(({ jobId, days, risk }) => {
    const one = truths.get(jobId);
    if (one?.truth.callback_risk === undefined) return [];
    // The chance of a callback that the job itself causes: those are what is foretold.
    const chance = -Math.expm1((Math.log1p(-one.truth.callback_risk) * days) / 365);
    return [{ plan: one.plan, chance, risk }];
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
    ...Array.from({ length: told.length === 0 ? 0 : fifths }, (_, at) => {
      const own = told.slice(Math.floor((at * told.length) / fifths), Math.floor(((at + 1) * told.length) / fifths));
      const ratio = sum(own.map(({ risk }) => risk.risk)) / sum(own.map(({ chance }) => chance));
      return {
        ...figure(`… fifth ${at + 1} of the risks, the highest first: the same`, ratio),
        cases: own.length,
        notTold: 0,
      };
    }),
    claim(
      '… the interval of a risk, which is said of all jobs alike, holds the own chance of the single job',
      told.map(({ plan, chance, risk }) => ({
        plan,
        value: risk.low <= chance && chance <= risk.high,
        badness: 0,
        says: `true ${chance.toFixed(3)}, told ${risk.risk.toFixed(3)} (${risk.low.toFixed(3)} to ${risk.high.toFixed(3)})`,
      })),
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
