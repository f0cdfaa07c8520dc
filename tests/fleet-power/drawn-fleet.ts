import { checks } from '../../src/checks/checks.ts';
import { type FleetJobs, groupings, type Grouping, type Units } from '../../src/fleet/fleet-jobs.ts';
import { type MixFactorName, mixFactors } from '../../src/fleet/job-mix.ts';
import { skills } from '../../src/fleet/skill.ts';
import { bracketedRoot } from '../../src/numerics/bracketed-root.ts';
import { Random } from '../../src/numerics/random.ts';

/** A job before anything is known of it. */
export interface DrawnJob {
  readonly technician: number;
  readonly crew: number;
  /** 0…1: how far the year of jobs has gone. */
  readonly time: number;
  readonly isLongLine: boolean;
}

/** A fleet whose people work alike but for what `odds` says. */
export interface DrawnFleet {
  readonly seed: number;
  readonly technicians: number;
  /** People of a crew at first. */
  readonly crewSize: number;
  /** Jobs of each person, on average where they are not alike. */
  readonly jobsEach: number;
  /** Whether a few do most of the jobs: each person has some two thirds of what the one before has, down to a fifth. */
  readonly isUneven?: boolean;
  /** Whether two crews have one pump; else each has its own. */
  readonly isPumpShared?: boolean;
  /** Standard deviation of the true effects of people on the odds of each skill [logit]. */
  readonly spread?: number;
  /** Over how many days jobs are spread; without it a year. */
  readonly overDays?: number;
  /** Share of jobs in which each skill is found, all in all where nobody differs. */
  readonly base: number;
  /** Skills that are judged; without it all of the seven that flags are counted of. */
  readonly skills?: readonly string[];
  /** By how much the odds of a skill in a job are multiplied. */
  readonly odds?: (job: DrawnJob, skillId: string) => number;
  /** The crew of a job; without it nobody moves. */
  readonly crewOf?: (technician: number, time: number) => number;
  /** Share of long lines, which are found at 2.5 times the odds; without it three of ten for everybody. */
  readonly longLines?: (technician: number) => number;
}

/** Check of each skill that stands for all of its checks. */
const checkOf = new Map(skills.map((skill) => [skill.id, skill.checkIds[0]]));
const longLineOdds = 2.5;
const longLineShare = 0.3;

/** Jobs of a fleet over a year with what the checks found, drawn from the seed alone. */
export function drawnFleet(plan: DrawnFleet): FleetJobs {
  const {
    technicians,
    crewSize,
    base,
    odds: multiple = () => 1,
    longLines = () => longLineShare,
    overDays = 365,
  } = plan;
  const random = new Random(plan.seed);
  const crewOf = plan.crewOf ?? ((technician: number) => Math.floor(technician / crewSize));
  const effects = skills.map(() =>
    Array.from({ length: technicians }, () => Math.exp(plan.spread === undefined ? 0 : random.normal(0, plan.spread))),
  );
  const jobs = peopleOf(plan)
    .map((technician): DrawnJob => {
      const time = random.uniform();
      return { technician, time, crew: crewOf(technician, time), isLongLine: random.chance(longLines(technician)) };
    })
    .sort((a, b) => a.time - b.time);
  const odds = shortLineOdds(base);
  const judged = skills.filter(({ id, by }) => by === 'flagged' && (plan.skills?.includes(id) ?? true));
  const checkIds = checks.map(({ id }) => id);
  const bits = { judged: new Uint32Array(2 * jobs.length), found: new Uint32Array(2 * jobs.length) };
  for (const [at, job] of jobs.entries())
    for (const [place, skill] of skills.entries()) {
      if (!judged.includes(skill)) continue;
      const bit = checkIds.indexOf(checkOf.get(skill.id) ?? '');
      const all = odds * effects[place][job.technician] * multiple(job, skill.id) * (job.isLongLine ? longLineOdds : 1);
      const isFound = random.chance(all / (1 + all));
      const set = (of: Uint32Array) => (of[2 * at + (bit >> 5)] |= 1 << (bit & 31));
      set(bits.judged);
      if (isFound) set(bits.found);
    }
  return {
    count: jobs.length,
    days: Int32Array.from(jobs, ({ time }) => 20000 + Math.floor(overDays * time)),
    units: Object.fromEntries(groupings.map((name) => [name, unitsOf(name, jobs, plan.isPumpShared)])) as Record<
      Grouping,
      Units
    >,
    mix: drawnMix(jobs, random),
    outcomes: { ...bits, missing: new Uint32Array(2 * jobs.length), checkIds },
  };
}

/** Odds of a short line under which so many jobs are found in all, where three of ten have long lines. */
function shortLineOdds(base: number): number {
  const share = (odds: number): number => odds / (1 + odds);
  return bracketedRoot(
    (odds) => (1 - longLineShare) * share(odds) + longLineShare * share(longLineOdds * odds) - base,
    0,
    base / (1 - base),
  );
}

/** The person of each job, before they are put in the order of time. */
function peopleOf({ technicians, jobsEach, isUneven = false }: DrawnFleet): number[] {
  const weights = Array.from({ length: technicians }, (_, person) => (isUneven ? Math.max(0.2, 0.65 ** person) : 1));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.flatMap((weight, person) =>
    Array.from({ length: Math.round((technicians * jobsEach * weight) / all) }, () => person),
  );
}

/** All gear is the crew's, but for a pump that two may share. */
function unitsOf(grouping: Grouping, jobs: readonly DrawnJob[], isPumpShared = false): Units {
  const of = Int32Array.from(jobs, ({ technician, crew }) =>
    grouping === 'technician' ? technician : grouping === 'pump' && isPumpShared ? crew >> 1 : crew,
  );
  return { of, ids: Array.from({ length: Math.max(...of) + 1 }, (_, at) => `${grouping}-${at + 1}`) };
}

/** Long lines as they are; all other factors at random, without any effect. */
function drawnMix(jobs: readonly DrawnJob[], random: Random): Record<MixFactorName, Uint8Array> {
  return Object.fromEntries(
    mixFactors.map(({ name, bounds }) => [
      name,
      Uint8Array.from(jobs, ({ isLongLine }) =>
        name === 'line_length_m' ? (isLongLine ? 4 : 2) : random.integer(0, bounds?.length ?? 4),
      ),
    ]),
  ) as Record<MixFactorName, Uint8Array>;
}
