import { type ChangeSignal, changeSignals } from '../../../src/fleet/statistics/change-signals.ts';
import type { JudgedJobs } from '../../../src/fleet/statistics/month-chart.ts';
import { trainingEffect } from '../../../src/fleet/statistics/training-effect.ts';
import { Random } from '../../../src/numerics/random.ts';
import { type Claim, type ClaimCase, type ClaimGoal, claim } from '../../truth/claim.ts';
import { drawnSeries, type SeriesPlan } from './drawn-series.ts';

const charts = ['cumulative-sum', 'moving-average', 'month'] as const;
const anyChance = (random: Random) => random.uniform(0.05, 0.5);
const inJobs = (jobs: number) => (Number.isFinite(jobs) ? `${jobs} jobs` : 'never');

/** A case of which a chance event is told: bad where it should not be, or should. */
function caseOf(seed: number, number: number, kind: string, value: number | boolean, isBad = false): ClaimCase {
  return { plan: { seed, number, kind }, value, badness: isBad ? 1 : 0, says: `${kind}: ${value}` };
}

/**
 * How often charts and training effects say what is not so, and how surely they say what is: all by simulation.
 *
 * @param runs series of each kind
 */
export function overTimeClaims(seed: number, runs: number): Claim[] {
  return [
    ...falseSignals(seed, runs),
    ...foundChanges(seed, runs),
    ...chosenForTraining(seed, runs),
    ...trained(seed, runs),
  ];
}

/** Series of 100 jobs in which nothing changes. */
export function falseSignals(seed: number, runs: number): Claim[] {
  const share = (
    kind: string,
    plan: Partial<SeriesPlan> & Pick<SeriesPlan, 'chance'>,
    only: readonly ChangeSignal['chart'][],
    goal: ClaimGoal,
  ) => {
    const { jobs = 100 } = plan;
    // As many jobs in all.
    const signals = Array.from({ length: Math.ceil((runs * 100) / jobs) }, (_, number) =>
      changeSignals(drawnSeries(new Random(seed, number), { ...plan, jobs })),
    );
    return only.flatMap((chart) =>
      [undefined, 'worse', 'better'].map((side) => {
        const cases = signals.map((each, number) => {
          const isFalse = each.some((one) => one.chart === chart && (side ?? one.direction) === one.direction);
          return caseOf(seed, number, kind, isFalse, isFalse && side === undefined);
        });
        const what = `no change in ${jobs} jobs, ${kind}: ${chart} signals${side === undefined ? '' : ` ${side}`}`;
        return claim(what, cases, side === undefined ? goal : {});
      }),
    );
  };
  const few = { least: 0.005, most: 0.01 };
  return [
    ...share('chances 0.05 to 0.5', { chance: anyChance }, charts, few),
    ...share('chances 0.05 to 0.5', { chance: anyChance, jobs: 1000 }, charts, {}),
    ...share('chances 0.05 to 0.5, 30 a month', { chance: anyChance, jobsAMonth: 30 }, ['month'], few),
    // Where little is expected, one find tells much: limits for a normal distribution fail here.
    ...[0.02, 0.05, 0.1].flatMap((chance) =>
      share(`chance ${chance}`, { chance: () => chance }, charts, { most: 0.01 }),
    ),
    ...share('chance 0.3', { chance: () => 0.3 }, charts, {}),
  ];
}

/** Jobs in which nothing changes before the change that is to be found; what signals among them is left out. */
const jobsBefore = 60;
const jobsAfter = 400;

/** Series in which the odds change after 60 jobs, and stay. */
export function foundChanges(seed: number, runs: number): Claim[] {
  const kinds = [0.2, 0.3].flatMap((chance) => [3, 2, 1 / 2].map((oddsRatio) => ({ chance, oddsRatio })));
  return kinds.flatMap(({ chance, oddsRatio }) =>
    [8, 30].flatMap((jobsAMonth) => {
      const kind = `odds × ${oddsRatio} at ${chance}`;
      const direction = oddsRatio > 1 ? 'worse' : 'better';
      const jobs = jobsBefore + jobsAfter;
      const changed = (job: number) => (job < jobsBefore ? 1 : oddsRatio);
      const signals = Array.from({ length: runs }, (_, number) => {
        const plan = { jobs, chance: () => chance, oddsRatio: changed, jobsAMonth };
        return changeSignals(drawnSeries(new Random(seed, number), plan));
      });
      // Only months ask how many jobs there are in one.
      return (jobsAMonth === 8 ? charts : (['month'] as const)).flatMap((chart) => {
        const waits = signals.flatMap((each, number) => {
          const first = each.find((signal) => signal.chart === chart && signal.direction === direction);
          if (first !== undefined && first.at < jobsBefore) return [];
          return { number, jobs: first === undefined ? Number.POSITIVE_INFINITY : first.at - jobsBefore + 1 };
        });
        const name = `${kind}: ${chart}${chart === 'month' ? ` of ${jobsAMonth}` : ''} signals`;
        const within = (most: number) =>
          claim(
            `${name} within ${most} jobs`,
            waits.map((wait) => caseOf(seed, wait.number, kind, wait.jobs <= most)),
          );
        const waited = waits.map((wait) => caseOf(seed, wait.number, kind, wait.jobs));
        return [claim(`${name}, median wait`, waited, { write: inJobs }), within(60), within(120)];
      });
    }),
  );
}

/** The worst of twelve, sent to a training that does nothing. */
export function chosenForTraining(seed: number, runs: number): Claim[] {
  const kinds = [
    { truth: 0, spread: 0, goal: { most: 0.04 } },
    { truth: 0.4, spread: 0.4, goal: { most: 0.04 } },
    // Where it is not well known how people differ.
    { truth: 0, spread: 0.4, goal: {} },
    { truth: 0.4, spread: 0, goal: {} },
  ];
  return kinds.flatMap(({ truth, spread, goal }) => {
    const kind = `worst of 12 who differ by ${truth} (taken for ${spread}), 60 jobs a side, no effect`;
    const told = Array.from({ length: runs }, (_, number) => {
      const random = new Random(seed, number);
      const people = Array.from({ length: 12 }, () => drawnPerson(random, 60, random.normal(0, truth)));
      const worst = people.reduce((one, other) => (excess(other.jobs) > excess(one.jobs) ? other : one));
      const after = drawnPerson(random, 60, worst.effect).jobs;
      const { verdict } = trainingEffect({ before: worst.jobs, after, spread });
      return { verdict, naive: isNaivelyBetter(worst.jobs, after) };
    });
    const share = (what: string, of: (one: (typeof told)[number]) => boolean, goalOf: ClaimGoal = {}) =>
      claim(
        `${kind}: ${what}`,
        told.map((one, number) => caseOf(seed, number, kind, of(one), goalOf.most !== undefined && of(one))),
        goalOf,
      );
    return [
      share('better', ({ verdict }) => verdict === 'better', goal),
      share('worse', ({ verdict }) => verdict === 'worse', goal),
      share('a naive comparison shows better', ({ naive }) => naive),
    ];
  });
}

/** People sent by lot to a training that leaves 0.4 of their odds. */
export function trained(seed: number, runs: number): Claim[] {
  const oddsRatio = 0.4;
  const kinds = [0, 0.4].flatMap((spread) => [20, 60, 120].map((jobs) => ({ spread, jobs })));
  return kinds.flatMap(({ spread, jobs }) => {
    const kind = `odds × ${oddsRatio}, people differ by ${spread}, ${jobs} jobs a side`;
    const told = Array.from({ length: runs }, (_, number) => {
      const random = new Random(seed, number);
      const before = drawnPerson(random, jobs, random.normal(0, spread));
      const after = drawnPerson(random, jobs, before.effect + Math.log(oddsRatio));
      return trainingEffect({ before: before.jobs, after: after.jobs, spread });
    });
    const covers = told.map(({ oddsRatio: { low, high } }) => low <= oddsRatio && oddsRatio <= high);
    return [
      claim(
        `${kind}: the interval holds the truth`,
        covers.map((isIn, number) => caseOf(seed, number, kind, isIn, !isIn)),
        jobs === 60 ? { least: 0.93, most: 0.97 } : {},
      ),
      claim(
        `${kind}: better`,
        told.map(({ verdict }, number) => caseOf(seed, number, kind, verdict === 'better')),
      ),
    ];
  });
}

function drawnPerson(random: Random, jobs: number, effect: number): { jobs: JudgedJobs; effect: number } {
  return { jobs: drawnSeries(random, { jobs, chance: anyChance, oddsRatio: () => Math.exp(effect) }), effect };
}

function excess({ found, chances }: JudgedJobs): number {
  return total(found) - total(chances);
}

/** Two shares, one against the other, as if nobody had been chosen: textbook, normal, two-sided at 5 of 100. */
function isNaivelyBetter(before: JudgedJobs, after: JudgedJobs): boolean {
  const [jobsThen, jobsSince] = [before.found.length, after.found.length];
  const [then, since] = [total(before.found), total(after.found)];
  const over = (then + since) / (jobsThen + jobsSince);
  const error = Math.sqrt(over * (1 - over) * (1 / jobsThen + 1 / jobsSince));
  return (since / jobsSince - then / jobsThen) / error < -1.96;
}

function total(values: ArrayLike<number>): number {
  return Array.from(values).reduce((sum, value) => sum + value, 0);
}
