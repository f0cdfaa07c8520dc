import { fitWithinPeople, type Forerunner, forerunners } from '../../src/fleet/callbacks/forerunners.ts';
import { choosePredictors } from '../../src/fleet/callbacks/predictors.ts';
import { skills } from '../../src/fleet/skill.ts';
import { type Claim, type ClaimGoal, claim } from '../truth/claim.ts';
import { type DrawnCourses, watchedJobs } from './drawn-callbacks.ts';
import { coverage, crew, drawn, hazard, type Plan, ratios } from './drawn-plans.ts';

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

/** What is said to foretell callbacks of a fleet. */
export function forerunnersOf(fleet: DrawnCourses): readonly Forerunner[] {
  const followed = watchedJobs(fleet);
  const callbacks = followed.events.reduce((sum, event) => sum + event, 0);
  const within = fitWithinPeople(fleet.jobs, followed, choosePredictors(fleet.jobs, followed, callbacks).chosen);
  return within === undefined ? [] : forerunners(within);
}

/** The skill that a predictor is, or the one whose check stands for it in drawn fleets. */
function groupOf({ predictor }: Forerunner): string {
  return skills.find(({ by, checkIds }) => by === 'flagged' && checkIds[0] === predictor.skill.checkIds[0])?.id ?? '';
}
