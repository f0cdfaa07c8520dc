import { callbackFree, groupOfJobs } from '../../src/fleet/callbacks/callback-free.ts';
import { RiskModel } from '../../src/fleet/callbacks/callback-risk.ts';
import { followUpEnding, type FollowUps } from '../../src/fleet/callbacks/follow-up.ts';
import { fitWithinPeople, type Forerunner, forerunners } from '../../src/fleet/callbacks/forerunners.ts';
import { choosePredictors } from '../../src/fleet/callbacks/predictors.ts';
import { preventedCallbacks } from '../../src/fleet/callbacks/revisits.ts';
import { lookBack, type RiskRecord } from '../../src/fleet/callbacks/risk-record.ts';
import { skills } from '../../src/fleet/skill.ts';
import { kaplanMeier, stepAt } from '../../src/fleet/statistics/kaplan-meier.ts';
import { type Claim, type ClaimGoal, claim } from '../truth/claim.ts';
import { type DrawnCallbacks, drawnCallbacks, type DrawnCourses, horizonDays, watchedJobs } from './drawn-callbacks.ts';

type Plan = Omit<DrawnCallbacks, 'fleet'> & { readonly fleet: Omit<DrawnCallbacks['fleet'], 'seed'> };

const crew = { technicians: 12, crewSize: 3 } as const;
const ratios = { evacuation: 3, rise: 2 } as const;
/** Callbacks a year where a finding doubles or triples them. */
const hazard = 0.12;
const coverage: ClaimGoal = { least: 0.93, most: 0.97 };

/** Fleets with two findings that do foretell callbacks. */
export function ratioClaims(seed: number, runs: number): Claim[] {
  const kinds: readonly [string, Plan][] = [
    ['some 65 callbacks', { fleet: { ...crew, jobsEach: 60, base: 0.2 }, hazard, ratios }],
    [
      'some 65, people differ in findings and callbacks',
      { fleet: { ...crew, jobsEach: 60, base: 0.2, spread: 0.6 }, hazard, ratios, frailty: 0.5 },
    ],
    ['some 110, a third not judged', { fleet: { ...crew, jobsEach: 100, base: 0.2 }, hazard, ratios, unjudged: 0.33 }],
    [
      'some 100, findings prompt visits',
      { fleet: { ...crew, jobsEach: 110, base: 0.2 }, hazard, ratios, revisits: { evacuation: 3, rise: 1 } },
    ],
    ['some 360', { fleet: { ...crew, jobsEach: 300, base: 0.1 }, hazard: 0.15, ratios, frailty: 0.5 }],
  ];
  return kinds.flatMap(([kind, plan], at) => {
    const told = drawn(seed + 1000 * at, runs, plan).flatMap(({ number, fleet }) =>
      forerunnersOf(fleet).map((one) => ({ number, one, truth: plan.ratios?.[groupOf(one) as 'rise'] ?? 1 })),
    );
    const holds = (truth: number, goal: ClaimGoal): Claim =>
      claim(
        `${kind}: intervals hold a true ratio of ${truth}`,
        told
          .filter((each) => each.truth === truth)
          .map(({ number, one }) => ({
            plan: { seed, number, kind },
            value: one.low <= truth && truth <= one.high,
            badness: one.low <= truth && truth <= one.high ? 0 : 1,
            says: `${one.low.toFixed(2)} to ${one.high.toFixed(2)}`,
          })),
        goal,
      );
    return [
      claim(
        `${kind}: intervals hold the true ratio, all findings`,
        told.map(({ number, one, truth }) => ({
          plan: { seed, number, kind },
          value: one.low <= truth && truth <= one.high,
          badness: 0,
          says: '',
        })),
        coverage,
      ),
      ...[1, 2, 3].map((truth) => holds(truth, {})),
      claim(
        `${kind}: a true ratio of 3 is named a forerunner`,
        told
          .filter(({ truth }) => truth === 3)
          .map(({ number, one }) => ({ plan: { seed, number, kind }, value: one.isForerunner, badness: 0, says: '' })),
      ),
    ];
  });
}

/** Fleets in which nothing foretells anything. */
export function chanceClaims(seed: number, runs: number): Claim[] {
  const kinds: readonly [string, Plan][] = [
    ['some 40 callbacks', { fleet: { ...crew, jobsEach: 40, base: 0.3 }, hazard: 0.18 }],
    ['some 75', { fleet: { ...crew, jobsEach: 60, base: 0.2 }, hazard: 0.22 }],
    ['some 75, findings rare', { fleet: { ...crew, jobsEach: 60, base: 0.06 }, hazard: 0.22 }],
    [
      'some 90, people differ in findings and callbacks',
      { fleet: { ...crew, jobsEach: 60, base: 0.2, spread: 0.8 }, hazard: 0.22, frailty: 0.7 },
    ],
    ['some 75, a third not judged', { fleet: { ...crew, jobsEach: 60, base: 0.2 }, hazard: 0.22, unjudged: 0.33 }],
    [
      'some 200, people who find little leave logs out where they work badly',
      {
        fleet: {
          ...crew,
          jobsEach: 120,
          base: 0.15,
          // Three people find most.
          odds: ({ technician }) => (technician < 3 ? 6 : 1),
        },
        hazard: 0.18,
        blank: { share: (technician) => (technician < 3 ? 0 : 0.4), ratio: 3 },
      },
    ],
    [
      'some 170 over two years, findings and callbacks become 4.5 times as many',
      {
        fleet: { ...crew, jobsEach: 90, base: 0.12, overDays: 730, odds: ({ time }) => 4.5 ** time },
        hazard: 0.12,
        trend: 4.5,
      },
    ],
    ['some 370', { fleet: { ...crew, jobsEach: 300, base: 0.1 }, hazard: 0.22 }],
  ];
  return kinds.map(([kind, plan], at) =>
    claim(
      `${kind}, nothing foretells them: a finding is named a forerunner`,
      drawn(seed + 1000 * at, runs, plan).map(({ number, fleet }) => {
        const named = forerunnersOf(fleet).filter(({ isForerunner }) => isForerunner);
        return {
          plan: { seed, number, kind },
          value: named.length > 0,
          badness: named.length,
          says: named.map((one) => `${groupOf(one)} ${one.ratio.toFixed(1)}`).join(', '),
        };
      }),
      { most: 0.05 },
    ),
  );
}

/** Fleets whose risks are held against what came after the days on which they were given. */
export function riskClaims(seed: number, runs: number): Claim[] {
  const three = { ...ratios, charge: 2 } as const;
  const kinds: readonly [string, Plan, ClaimGoal][] = [
    [
      'some 400 callbacks over two years',
      {
        fleet: { ...crew, jobsEach: 160, base: 0.2, overDays: 730, spread: 0.6 },
        hazard,
        ratios: three,
        frailty: 0.3,
        revisits: { evacuation: 1 },
      },
      { least: 0.95 },
    ],
    [
      'some 1100 over three years',
      {
        fleet: { ...crew, jobsEach: 300, base: 0.2, overDays: 1095, spread: 0.6 },
        hazard,
        ratios: three,
        frailty: 0.3,
      },
      { least: 0.95 },
    ],
    [
      'some 250 over two years, nothing foretells them',
      { fleet: { ...crew, jobsEach: 120, base: 0.2, overDays: 730, spread: 0.6 }, hazard: 0.2 },
      {},
    ],
  ];
  return kinds.flatMap(([kind, plan, better], at) => {
    const records = drawn(seed + 1000 * at, runs, plan).flatMap(({ number, fleet }) => {
      const { jobs, courses, toDay } = fleet;
      const record = lookBack(jobs, courses, { fromDay: jobs.days[0], toDay, horizonDays }, 90);
      return record === undefined ? [] : [{ number, record }];
    });
    const isPlanted = plan.ratios !== undefined;
    const figure = (what: string, of: (record: RiskRecord) => number, goal: ClaimGoal): Claim =>
      claim(
        `${kind}: ${what}`,
        records.map(({ number, record }) => ({
          plan: { seed, number, kind },
          value: of(record),
          badness: 0,
          says: '',
        })),
        { write: (value) => value.toFixed(3), ...goal },
      );
    const tenths = Array.from({ length: 10 }, (_, tenth) => {
      const [observed, expected] = (['observed', 'expected'] as const).map((which) =>
        records.reduce((sum, { record }) => sum + record.tenths[tenth][which], 0),
      );
      return claim(
        `${kind}: tenth ${tenth + 1} of the risks, came over expected, all fleets together`,
        [{ plan: { seed, number: tenth, kind }, value: observed / expected, badness: 0, says: '' }],
        { write: (value) => value.toFixed(2), ...(isPlanted ? { least: 0.8, most: 1.25 } : {}) },
      );
    });
    return [
      figure(
        'calibration slope, median',
        ({ slope }) => slope?.slope ?? Number.NaN,
        isPlanted ? { least: 0.8, most: 1.2 } : {},
      ),
      figure('came over expected, median', ({ observed, expected }) => observed / expected, { least: 0.9, most: 1.1 }),
      ...tenths,
      claim(
        `${kind}: Brier score better than by age alone`,
        records.map(({ number, record }) => ({
          plan: { seed, number, kind },
          value: record.brier < record.baseBrier,
          badness: 0,
          says: '',
        })),
        better,
      ),
    ];
  });
}

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

function* numbers(runs: number): Generator<number> {
  for (let number = 0; number < runs; number += 1) yield number;
}

function drawn(seed: number, runs: number, plan: Plan): { readonly number: number; readonly fleet: DrawnCourses }[] {
  return Array.from(numbers(runs), (number) => ({
    number,
    fleet: drawnCallbacks({ ...plan, fleet: { ...plan.fleet, seed: 100_000 * seed + number } }),
  }));
}

function forerunnersOf(fleet: DrawnCourses): readonly Forerunner[] {
  const followed = watchedJobs(fleet);
  const callbacks = followed.events.reduce((sum, event) => sum + event, 0);
  const within = fitWithinPeople(fleet.jobs, followed, choosePredictors(fleet.jobs, followed, callbacks).chosen);
  return within === undefined ? [] : forerunners(within);
}

/** The skill that a predictor is, or the one whose check stands for it in drawn fleets. */
function groupOf({ predictor }: Forerunner): string {
  return skills.find(({ by, checkIds }) => by === 'flagged' && checkIds[0] === predictor.skill.checkIds[0])?.id ?? '';
}
