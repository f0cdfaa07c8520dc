import { skills } from '../../src/fleet/skill.ts';
import { jobsByUnit } from '../../src/fleet/jobs-by-unit.ts';
import { seriesOf, type SkillChange, skillChanges } from '../../src/fleet/skill-changes.ts';
import { changeSignals } from '../../src/fleet/statistics/change-signals.ts';
import { skillRates } from '../../src/fleet/skill-rates.ts';
import { type Claim, type ClaimCase, type ClaimGoal, claim } from '../truth/claim.ts';
import { type DrawnFleet, drawnFleet } from './drawn-fleet.ts';

const [told] = skills.filter(({ id }) => id === 'evacuation');
const who = 4;
const bad = 1;
const usual = { technicians: 12, crewSize: 3, jobsEach: 100, base: 0.2, skills: [told.id] } as const;

/**
 * Changes over time in drawn fleets of twelve people with a hundred jobs each: of whom they are told.
 *
 * @param runs fleets of each kind
 */
export function changeClaims(seed: number, runs: number): Claim[] {
  const plans: readonly Partial<DrawnFleet>[] = [
    {},
    { spread: 0.4 },
    { odds: (job) => (job.technician === who ? 3 : 1) },
    { odds: (job) => (job.technician === who && job.time > 0.5 ? 3 : 1) },
    { odds: (job) => (job.technician === who && job.time < 0.5 ? 3 : 1) },
    { odds: (job) => (job.crew === bad && job.time > 0.5 ? 3 : 1) },
  ];
  const [alike, differing, habit, began, ended, hose] = plans.map((plan, at) => changesOf(seed + 100 * at, runs, plan));
  const people = Array.from({ length: usual.technicians }, (_, unit) => unit);
  const crews = [0, 1, 2, 3];
  return [
    toldOf(
      '12 alike people: a person is said to have changed',
      seed,
      alike,
      'technician',
      people,
      { most: 0.02 },
      true,
    ),
    toldOf('12 alike people: a crew is said to have changed', seed, alike, 'crew', crews, { most: 0.04 }, true),
    toldOf(
      'people who differ by 0.4: a person is said to have changed',
      seed,
      differing,
      'technician',
      people,
      { most: 0.02 },
      true,
    ),
    toldOf(
      'people who differ by 0.4: a crew is said to have changed',
      seed,
      differing,
      'crew',
      crews,
      { most: 0.04 },
      true,
    ),
    toldOf(
      'odds × 3 all along: the person is said to have changed',
      seed,
      habit,
      'technician',
      [who],
      { most: 0.05 },
      true,
    ),
    toldOf('odds × 3 from half time: told of the person', seed, began, 'technician', [who], {}),
    toldOf('odds × 3 until half time: told of the person', seed, ended, 'technician', [who], {}),
    toldOf('odds × 3 from half time by a hose of three: told of the crew', seed, hose, 'crew', [bad], {}),
    habitAsChange(seed + 200, runs),
  ];
}

/** The same held against what is expected of all, as if everybody were a usual person: what `skillChanges` is not to do. */
function habitAsChange(seed: number, runs: number): Claim {
  const what = 'odds × 3 all along, held against what is expected of all: seems to have changed';
  const cases = Array.from({ length: runs }, (_, number): ClaimCase => {
    const odds = (job: { technician: number }): number => (job.technician === who ? 3 : 1);
    const jobs = drawnFleet({ ...usual, odds, seed: seed * 1_000_003 + number });
    const rates = skillRates(jobs, told, { withInstruments: false });
    const value = changeSignals(seriesOf(jobs, rates, jobsByUnit(jobs.units.technician)[who])).length > 0;
    return { plan: { seed, number, kind: what }, value, badness: 0, says: what };
  });
  return claim(what, cases);
}

function changesOf(seed: number, runs: number, plan: Partial<DrawnFleet>): SkillChange[][] {
  return Array.from({ length: runs }, (_, number) => {
    const jobs = drawnFleet({ ...usual, ...plan, seed: seed * 1_000_003 + number });
    return skillChanges(jobs, [skillRates(jobs, told, { withInstruments: false })]);
  });
}

/** A case is a unit of a fleet. */
function toldOf(
  what: string,
  seed: number,
  fleets: readonly SkillChange[][],
  grouping: SkillChange['grouping'],
  units: readonly number[],
  goal: ClaimGoal,
  isBad = false,
): Claim {
  const cases = fleets.flatMap((changes, number) =>
    units.map((unit): ClaimCase => {
      const value = changes.some((change) => change.grouping === grouping && change.unit === unit);
      return { plan: { seed, number, kind: what }, value, badness: value === isBad ? 1 : 0, says: `unit ${unit}` };
    }),
  );
  return claim(what, cases, goal);
}
