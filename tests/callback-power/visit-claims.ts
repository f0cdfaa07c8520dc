import { callbackFree, groupOfJobs } from '../../src/fleet/callbacks/callback-free.ts';
import { RiskModel } from '../../src/fleet/callbacks/callback-risk.ts';
import { followUpEnding, type FollowUps } from '../../src/fleet/callbacks/follow-up.ts';
import { choosePredictors } from '../../src/fleet/callbacks/predictors.ts';
import { preventedCallbacks } from '../../src/fleet/callbacks/revisits.ts';
import { kaplanMeier, stepAt } from '../../src/fleet/statistics/kaplan-meier.ts';
import { type Claim, claim } from '../truth/claim.ts';
import { horizonDays, watchedJobs } from './drawn-callbacks.ts';
import { coverage, crew, drawn, hazard, type Plan } from './drawn-plans.ts';

/** Fleets in which findings prompt visits that hide callbacks, the worse the finding the sooner. */
export function visitClaims(seed: number, runs: number): Claim[] {
  const kind = 'half of the worst jobs visited';
  const plan: Plan = {
    fleet: { ...crew, jobsEach: 250, base: 0.2 },
    hazard,
    ratios: { evacuation: 4 },
    revisits: { evacuation: 4 },
  };
  const ages = [180];
  const told = drawn(seed, runs, plan).map(({ number, fleet }) => {
    const followed = watchedJobs(fleet);
    const flagged = groupOfJobs(fleet.jobs);
    const rows = Array.from(followed.jobs.keys()).filter((row) => flagged[followed.jobs[row]] === 0);
    const truth =
      rows.reduce((sum, row) => sum - Math.expm1((-fleet.hazards[followed.jobs[row]] * 180) / 365), 0) / rows.length;
    const { groups } = callbackFree(fleet.jobs, followed, ages);
    const callbacks = followed.events.reduce((sum, event) => sum + event, 0);
    const model = RiskModel.fit(fleet.jobs, followed, choosePredictors(fleet.jobs, followed, callbacks).chosen);
    const prevented = preventedCallbacks(followed, fleet.courses, model, horizonDays).callbacks;
    const hidden = Array.from(followed.jobs.keys()).filter(
      (row) =>
        followed.endings[row] === followUpEnding.revisited &&
        fleet.courses.callbackDays[followed.jobs[row]] <= fleet.courses.doneDays[followed.jobs[row]] + horizonDays,
    ).length;
    const [share] = groups[0].shares;
    const plain = 1 - (stepAt(kaplanMeier(picked(followed, rows)), ages[0])?.share ?? Number.NaN);
    return { number, truth, share, plain, prevented, hidden };
  });
  const plans = (number: number) => ({ seed, number, kind });
  const inOne = (value: number): string => value.toFixed(3);
  return [
    claim(
      `${kind}: share of flagged jobs with a callback in 180 days, told over true, median`,
      told.map(({ number, truth, share }) => ({
        plan: plans(number),
        value: (share.share ?? Number.NaN) / truth,
        badness: 0,
        says: '',
      })),
      { write: inOne, least: 0.95, most: 1.05 },
    ),
    claim(
      `${kind}: the same where visited jobs are left out from then on, median`,
      told.map(({ number, truth, plain }) => ({ plan: plans(number), value: plain / truth, badness: 0, says: '' })),
      { write: inOne },
    ),
    claim(
      `${kind}: its interval holds the true share`,
      told.map(({ number, truth, share }) => ({
        plan: plans(number),
        value: (share.low ?? 1) <= truth && truth <= (share.high ?? 0),
        badness: 0,
        says: '',
      })),
      coverage,
    ),
    claim(
      `${kind}: callbacks that visits hid, told over true, all fleets together`,
      [
        {
          plan: plans(0),
          value: sum(told, ({ prevented }) => prevented?.expected ?? 0) / sum(told, ({ hidden }) => hidden),
          badness: 0,
          says: '',
        },
      ],
      { write: inOne, least: 0.9, most: 1.1 },
    ),
  ];
}

function picked({ entries, stops, events }: FollowUps, rows: readonly number[]) {
  return {
    entries: Float64Array.from(rows, (row) => entries[row]),
    stops: Float64Array.from(rows, (row) => stops[row]),
    events: Uint8Array.from(rows, (row) => events[row]),
  };
}

function sum<One>(all: readonly One[], of: (one: One) => number): number {
  return all.reduce((added, one) => added + of(one), 0);
}
