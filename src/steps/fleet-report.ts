import { checkNamed, checks } from '../checks/checks.ts';
import { DryholdError } from '../errors.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import { changesByChance, type SkillChange } from '../fleet/skill-changes.ts';
import { checkSkill, type Skill, skills } from '../fleet/skill.ts';
import type { SkillRates } from '../fleet/skill-rates.ts';
import { SharedRates } from '../fleet/shared-rates.ts';
import { falseDiscoveryLimit } from '../fleet/standing-out.ts';
import { unitRate } from '../fleet/unit-rate.ts';
import { jobIdsAt } from '../store/job-ids-at.ts';
import type { Store } from '../store/store.ts';
import type { DatedChange, FleetRates, FleetReport, NamedUnit, RatesReport } from '../pages/fleet-data.ts';
import { ChangesThread } from './changes-thread.ts';
import { excessReport, namedCounts } from './excess-report.ts';
import { trainingReports } from './training-reports.ts';
import type { UnitNames } from './fleet-names.ts';
import { dayOfJob, type OpenFleet, openFleet } from './open-fleet.ts';

/** What of a fleet is told. */
export interface FleetAsked {
  /** Skills and checks whose rates are given; absent: every skill and every check. */
  readonly rates?: readonly string[];
  /** Of which units rates are given; absent: of all. */
  readonly kinds?: readonly NamedUnit['kind'][];
  /** Whether what is each unit's own is looked for among instruments, too, which takes as long as all else; absent: yes. */
  readonly withInstruments?: boolean;
  readonly onProgress?: (done: number, of: number, note: string) => void;
}

export interface FleetReportOptions extends FleetAsked {
  readonly codes: boolean;
}

/** What of a fleet's whole report is told. */
export interface WholeReportAsked extends FleetAsked {
  /** How many trainings, the latest, are looked at; absent: all. */
  readonly trainings?: number;
}

export interface WholeReportOptions extends WholeReportAsked {
  readonly codes: boolean;
}

/**
 * Rates of some skills and checks, by the policy judged last.
 *
 * @throws DryholdError `not-judged`; `bad-usage` for rates of something that is neither a skill nor a check
 */
export async function fleetRates(store: Store, options: FleetReportOptions): Promise<FleetRates> {
  const asked = askedSkills(options);
  const fleet = await openedFleet(store, options);
  const rates = ratesOf(fleet, options);
  return {
    ...fleet.summary,
    rates: asked.map((skill) => ratesReport(rates.of(skill), fleet.unitOf, options.kinds)),
  };
}

/**
 * The same, and who stands out and to whom it is laid, changes over time and what came after trainings.
 *
 * @throws DryholdError as `fleetRates`
 */
export async function fleetReport(store: Store, options: WholeReportOptions): Promise<FleetReport> {
  // What nobody knows is refused before anything is read.
  askedSkills(options);
  return fleetReportOf(store, await openedFleet(store, options), options);
}

/**
 * The same of a fleet that is open.
 *
 * @param timed its changes, where they were asked for already; whoever did so closes them
 * @throws DryholdError `bad-usage` as `fleetRates`
 */
export async function fleetReportOf(
  store: Store,
  fleet: OpenFleet,
  options: WholeReportAsked,
  timed?: ChangesThread,
): Promise<FleetReport> {
  const rates = ratesOf(fleet, options);
  if (timed !== undefined) return wholeReport(store, fleet, rates, timed, options);
  const own = askedChanges(fleet, rates, options.onProgress);
  try {
    return await wholeReport(store, fleet, rates, own, options);
  } finally {
    await own.close();
  }
}

/**
 * Works out the rates of all skills and has their changes looked for, while this thread goes on.
 *
 * @returns to be closed
 */
export function askedChanges(
  { jobs, rates: withoutInstruments }: OpenFleet,
  rates: SharedRates = withoutInstruments,
  onProgress: FleetAsked['onProgress'] = () => undefined,
): ChangesThread {
  const timed = new ChangesThread(jobs);
  for (const [at, skill] of skills.entries()) {
    onProgress(at + 1, skills.length + 2, skill.title);
    timed.ask(rates.of(skill));
  }
  return timed;
}

async function wholeReport(
  store: Store,
  fleet: OpenFleet,
  rates: SharedRates,
  timed: ChangesThread,
  options: WholeReportAsked,
): Promise<FleetReport> {
  const { jobs, unitOf } = fleet;
  const { onProgress = () => undefined } = options;
  const asked = askedSkills(options);
  const standing = rates.standingOut();
  onProgress(skills.length + 1, skills.length + 2, 'changes and trainings');
  const trainings = await trainingReports(store, fleet, rates, { latest: options.trainings });
  return {
    ...fleet.summary,
    falseDiscoveryLimit,
    tested: standing.tested,
    standingOut: standing.units.map((one) => ({
      ...excessReport(one, rates.of(one.skill), unitOf),
      falseDiscoveryShare: one.falseDiscoveryShare,
    })),
    lookedAt: changesByChance(rates.all()),
    changes: await datedChanges(store, jobs, await timed.changes(), unitOf),
    trainings,
    rates: asked.map((skill) => ratesReport(rates.of(skill), unitOf, options.kinds)),
  };
}

async function openedFleet(store: Store, { codes, onProgress }: FleetReportOptions): Promise<OpenFleet> {
  onProgress?.(0, 1, 'reading the findings');
  return openFleet(store, codes);
}

function ratesOf({ jobs, rates }: OpenFleet, { withInstruments = true }: FleetAsked): SharedRates {
  return withInstruments ? new SharedRates(jobs, { withInstruments }) : rates;
}

function askedSkills({ rates }: FleetAsked): Skill[] {
  return [...new Set(rates ?? [...skills, ...checks].map(({ id }) => id))].map(skillNamed);
}

/** The skill, or the check as a skill of its own. */
function skillNamed(id: string): Skill {
  const check = checkNamed(id);
  const skill = skills.find((each) => each.id === id) ?? (check && checkSkill(check));
  if (skill !== undefined) return skill;
  const problem = `"${id}" is neither a skill (${skills.map((each) => each.id).join(', ')}) nor a check`;
  throw new DryholdError('bad-usage', { problem });
}

async function datedChanges(
  store: Store,
  jobs: FleetJobs,
  changes: readonly SkillChange[],
  unitOf: UnitNames,
): Promise<DatedChange[]> {
  const ids = await jobIdsAt(
    store,
    changes.flatMap(({ at, since }) => [at, since]),
  );
  return changes.map(({ skill, grouping, unit, direction, chart, at, since, level, limit }) => ({
    unit: unitOf(grouping, unit),
    skill: { id: skill.id, title: skill.title },
    direction,
    chart,
    jobId: ids.get(at) ?? '',
    day: dayOfJob(jobs, at),
    sinceJobId: ids.get(since) ?? '',
    sinceDay: dayOfJob(jobs, since),
    level,
    limit,
  }));
}

function ratesReport(
  { skill, fleet, groupings }: SkillRates,
  unitOf: UnitNames,
  kinds?: readonly NamedUnit['kind'][],
): RatesReport {
  const { found, jobs, notEvaluated, missing } = fleet;
  return {
    skill: namedCounts(skill),
    kind: checkNamed(skill.id) === undefined ? 'skill' : 'check',
    fleet: { found, jobs, notEvaluated, missing },
    groupings: groupings
      .filter(({ grouping }) => kinds?.includes(grouping) ?? true)
      .map((grouped) => ({
        kind: grouped.grouping,
        usualSpread: Math.sqrt(grouped.excess.usualVariance),
        ownSpread: grouped.own?.spread ?? null,
        units: grouped.tallies.map((_, unit) => ({ unit: unitOf(grouped.grouping, unit), ...unitRate(grouped, unit) })),
      })),
  };
}
