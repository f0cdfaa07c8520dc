import type { FleetJobs, Grouping } from '../../src/fleet/fleet-jobs.ts';
import { skills } from '../../src/fleet/skill.ts';
import { type SkillRates, skillRates } from '../../src/fleet/skill-rates.ts';
import { type StandingOut, standingOut } from '../../src/fleet/standing-out.ts';
import { unitRate } from '../../src/fleet/unit-rate.ts';
import { type Claim, type ClaimCase, type ClaimGoal, claim } from '../truth/claim.ts';
import { type DrawnFleet, drawnFleet } from './drawn-fleet.ts';

/** The skill in which somebody or something differs. */
const told = 'evacuation';
/** The person who differs, and the crew whose gear does. */
const who = 4;
const bad = 1;

const usual = { technicians: 12, crewSize: 3, jobsEach: 60, base: 0.3, isPumpShared: true } as const;

/** What a fleet was drawn for, and who stands out in it. */
interface Result {
  readonly number: number;
  readonly rates: readonly SkillRates[];
  readonly standing: readonly StandingOut[];
}

/** Fleets in which nobody's work, and nothing that is shared, is worse than it should be. */
export function alike(seed: number, runs: number): Claim[] {
  const plans: { kind: string; plan: Partial<DrawnFleet>; goal?: ClaimGoal }[] = [
    { kind: '12 alike people, 60 jobs each', plan: {}, goal: { most: 0.05 } },
    { kind: '30 alike people, 60 jobs each', plan: { technicians: 30 }, goal: { most: 0.05 } },
    { kind: '12 alike people, a few with most of the jobs', plan: { isUneven: true }, goal: { most: 0.05 } },
    { kind: '12 alike people, 1 job in 20 found', plan: { base: 0.05 }, goal: { most: 0.05 } },
    { kind: '4 alike people, crews of 1', plan: { technicians: 4, crewSize: 1 }, goal: { most: 0.05 } },
    // These do differ: who stands out is no false alarm, but nothing that they share is at fault.
    { kind: '24 people who differ by 0.4', plan: { technicians: 24, spread: 0.4 } },
  ];
  return plans.flatMap(({ kind, plan, goal = {} }, at) => {
    const fleets = drawn(seed + 100 * at, runs, { ...usual, ...plan });
    const isShared = (one: StandingOut): boolean => !isPerson(one) && one.laidTo.verdict !== 'people';
    return [
      share(`${kind}: anybody stands out`, seed, fleets, ({ standing }) => standing.some(isPerson), goal, true),
      share(
        `${kind}: any crew or gear stands out`,
        seed,
        fleets,
        ({ standing }) => !standing.every(isPerson),
        goal,
        true,
      ),
      share(
        `${kind}: an excess is laid to a crew or gear`,
        seed,
        fleets,
        ({ standing }) => standing.some(isShared),
        {},
        true,
      ),
    ];
  });
}

/**
 * Fleets in which one person has a multiple of the odds.
 *
 * @param people how many a fleet has
 */
export function onePerson(seed: number, runs: number, people: readonly number[] = [12, 30]): Claim[] {
  const cases = [
    { multiple: 3, base: 0.3, jobsEach: 60 },
    { multiple: 2, base: 0.2, jobsEach: 180 },
  ];
  return cases.flatMap(({ multiple, base, jobsEach }) =>
    [
      { technicians: 12, judged: 1 },
      { technicians: 12, judged: 3 },
      { technicians: 12, judged: 7 },
      { technicians: 30, judged: 7 },
    ]
      .filter(({ technicians }) => people.includes(technicians))
      .flatMap(({ technicians, judged }) => {
        const fleets = drawn(seed, runs, {
          ...usual,
          technicians,
          base,
          jobsEach,
          skills: ['evacuation', 'rise', 'charge', 'run-test', 'recording', 'tests-made', 'pressure-test'].slice(
            0,
            judged,
          ),
          odds: (job, skill) => (job.technician === who && skill === told ? multiple : 1),
        });
        const kind = `odds × ${multiple} at ${base}, ${jobsEach} jobs, ${technicians} people, ${judged} skill${judged === 1 ? '' : 's'}`;
        const own = ({ standing }: Result) => standing.find(isUnit('technician', who));
        return [
          share(`${kind}: stands out`, seed, fleets, (each) => own(each) !== undefined, { least: 0.8 }),
          share(`${kind}: beyond the 99.8 % funnel limit`, seed, fleets, isBeyondFunnel, {}),
          share(
            `${kind}: laid to the person, of those who stand out`,
            seed,
            fleets.filter(own),
            (each) => own(each)?.laidTo.verdict === 'people',
            {},
          ),
          share(
            `${kind}: anybody else stands out`,
            seed,
            fleets,
            ({ standing }) => standing.some((one) => isPerson(one) && !isUnit('technician', who)(one)),
            {},
            true,
          ),
        ];
      }),
  );
}

/** Fleets in which the hose of one crew triples the odds. */
export function sharedGear(seed: number, runs: number): Claim[] {
  const kinds = [
    { kind: 'hose of 1', crewSize: 1, isSeparable: false },
    { kind: 'hose of 2', crewSize: 2, isSeparable: false },
    {
      kind: 'hose of 2, where every other person changes crews at half time',
      crewSize: 2,
      isSeparable: true,
      moves: true,
    },
    { kind: 'hose of 3', crewSize: 3, isSeparable: true },
    { kind: 'hose of 4', crewSize: 4, isSeparable: true },
  ];
  return kinds.flatMap(({ kind, crewSize, isSeparable, moves = false }) => {
    const crews = usual.technicians / crewSize;
    const fleets = drawn(seed, runs, {
      ...usual,
      crewSize,
      odds: (job, skill) => (job.crew === bad && skill === told ? 3 : 1),
      ...(moves
        ? {
            crewOf: (technician: number, time: number) =>
              (Math.floor(technician / crewSize) + (technician % 2 === 1 && time > 0.5 ? 1 : 0)) % crews,
          }
        : {}),
    });
    const all = fleets.flatMap((each) =>
      each.standing.filter((one) => one.skill.id === told && isOfCrew(one, crewSize)).map((one) => ({ ...each, one })),
    );
    // Of a crew of one the person himself may stand out, and not the crew.
    const ofBad = ({ standing }: Result) =>
      standing.find(isUnit('crew', bad)) ?? standing.find((one) => one.skill.id === told && isOfCrew(one, crewSize));
    const crew = fleets.filter((each) => ofBad(each) !== undefined);
    const verdictOf = (each: Result) => ofBad(each)?.laidTo.verdict;
    const wanted = isSeparable ? 'shared' : 'not-separable';
    return [
      share(
        `${kind}: its crew, or anybody who shares it, stands out`,
        seed,
        fleets,
        (each) => ofBad(each) !== undefined,
        {},
      ),
      share(
        `${kind}: laid to ${isSeparable ? 'hose or crew' : 'neither, called not separable'}`,
        seed,
        crew,
        (each) => verdictOf(each) === wanted,
        { least: 0.9 },
      ),
      share(
        `${kind}: people who share it and stand out, laid to themselves`,
        seed,
        all.filter(({ one }) => isPerson(one)),
        ({ one }) => ['people', 'both'].includes(one.laidTo.verdict),
        {},
        true,
      ),
      share(
        `${kind}: any person is blamed`,
        seed,
        fleets,
        ({ standing }) => standing.some((one) => isPerson(one) && ['people', 'both'].includes(one.laidTo.verdict)),
        { most: 0.1 },
        true,
      ),
    ];
  });
}

/** Fleets of alike people of whom one gets all the long lines. */
export function jobMix(seed: number, runs: number): Claim[] {
  const shares = [
    { kind: 'others 5 %', others: 0.05 },
    { kind: 'others none', others: 0 },
  ];
  return shares.flatMap(({ kind, others }) => {
    const fleets = drawn(seed, runs, { ...usual, longLines: (technician) => (technician === who ? 1 : others) });
    const isThe = ({ standing }: Result) => standing.some((one) => isPerson(one) && one.unit === who);
    return [
      share(
        `one of 12 alike people has only long lines, ${kind}: stands out`,
        seed,
        fleets,
        isThe,
        { most: 0.05 },
        true,
      ),
    ];
  });
}

function drawn(seed: number, runs: number, plan: Omit<DrawnFleet, 'seed'>): Result[] {
  return Array.from({ length: runs }, (_, number) => {
    const jobs: FleetJobs = drawnFleet({ ...plan, seed: seed * 1_000_003 + number });
    const rates = skills.map((skill) => skillRates(jobs, skill, { withInstruments: false }));
    return { number, rates, standing: standingOut(jobs, rates).units };
  });
}

const isPerson = ({ grouping }: StandingOut): boolean => grouping === 'technician';

const isUnit =
  (grouping: Grouping, unit: number) =>
  (one: StandingOut): boolean =>
    one.grouping === grouping && one.unit === unit && one.skill.id === told;

/** Whether one who stands out used the bad hose at first. */
function isOfCrew(one: StandingOut, crewSize: number): boolean {
  return isPerson(one) && Math.floor(one.unit / crewSize) === bad;
}

function isBeyondFunnel({ rates }: Result): boolean {
  const of = rates.find(({ skill }) => skill.id === told);
  const { share: found, widened } = unitRate(of!.groupings[0], who);
  return (found ?? 0) > (widened?.high998 ?? 1);
}

function share<Case extends Result>(
  what: string,
  seed: number,
  fleets: readonly Case[],
  isSo: (fleet: Case) => boolean,
  goal: ClaimGoal,
  isBad = false,
): Claim {
  const cases = fleets.map((fleet): ClaimCase => {
    const value = isSo(fleet);
    return { plan: { seed, number: fleet.number, kind: what }, value, badness: value === isBad ? 1 : 0, says: what };
  });
  return claim(what, cases, goal);
}
