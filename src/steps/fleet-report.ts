import { checkNamed, checks } from '../checks/checks.ts';
import { DryholdError } from '../errors.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import { changesByChance, type SkillChange } from '../fleet/skill-changes.ts';
import { checkSkill, type Skill, skills } from '../fleet/skill.ts';
import { type SkillRates, skillRates } from '../fleet/skill-rates.ts';
import { falseDiscoveryLimit, standingOut } from '../fleet/standing-out.ts';
import { unitRate } from '../fleet/unit-rate.ts';
import type { Store } from '../store/store.ts';
import type { DatedChange, FleetRates, FleetReport, NamedUnit, RatesReport } from '../pages/fleet-data.ts';
import { ChangesThread } from './changes-thread.ts';
import { excessReport, namedCounts } from './excess-report.ts';
import { trainingReports } from './training-reports.ts';
import type { UnitNames } from './fleet-names.ts';
import { dayOfJob, type OpenFleet, openFleet } from './open-fleet.ts';

export interface FleetReportOptions {
  readonly codes: boolean;
  /** Skills and checks whose rates are given; absent: every skill and every check. */
  readonly rates?: readonly string[];
  /** Of which units rates are given; absent: of all. */
  readonly kinds?: readonly NamedUnit['kind'][];
  /** Whether what is each unit's own is looked for among instruments, too, which takes as long as all else; absent: yes. */
  readonly withInstruments?: boolean;
  readonly onProgress?: (done: number, of: number, note: string) => void;
}

export interface WholeReportOptions extends FleetReportOptions {
  /** How many trainings, the latest, are looked at; absent: all. */
  readonly trainings?: number;
}

/**
 * Rates of some skills and checks, by the policy judged last.
 *
 * @throws DryholdError `not-judged`; `bad-usage` for rates of something that is neither a skill nor a check
 */
export async function fleetRates(store: Store, options: FleetReportOptions): Promise<FleetRates> {
  const fleet = await ratedFleet(store, options);
  return {
    ...fleet.summary,
    rates: fleet.asked.map((skill) => ratesReport(fleet.ratesOf(skill), fleet.unitOf, options.kinds)),
  };
}

/**
 * The same, and who stands out and to whom it is laid, changes over time and what came after trainings.
 *
 * @throws DryholdError as `fleetRates`
 */
export async function fleetReport(store: Store, options: WholeReportOptions): Promise<FleetReport> {
  const fleet = await ratedFleet(store, options);
  const timed = new ChangesThread(fleet.jobs);
  try {
    return await wholeReport(store, fleet, timed, options);
  } finally {
    await timed.close();
  }
}

async function wholeReport(
  store: Store,
  fleet: RatedFleet,
  timed: ChangesThread,
  options: WholeReportOptions,
): Promise<FleetReport> {
  const { jobs, ratesOf, unitOf, onProgress } = fleet;
  const all = skills.map((skill, at) => {
    onProgress(at + 1, skills.length + 2, skill.title);
    const rates = ratesOf(skill);
    timed.ask(rates);
    return rates;
  });
  const standing = standingOut(jobs, all);
  onProgress(skills.length + 1, skills.length + 2, 'changes and trainings');
  const trainings = await trainingReports(store, fleet, options.codes, options.trainings);
  return {
    ...fleet.summary,
    falseDiscoveryLimit,
    tested: standing.tested,
    standingOut: standing.units.map((one) => ({
      ...excessReport(one, ratesOf(one.skill), unitOf),
      falseDiscoveryShare: one.falseDiscoveryShare,
    })),
    lookedAt: changesByChance(all),
    changes: await datedChanges(store, jobs, await timed.changes(), unitOf),
    trainings,
    rates: fleet.asked.map((skill) => ratesReport(ratesOf(skill), unitOf, options.kinds)),
  };
}

/** A fleet, the rates that were asked for, and how they are worked out. */
interface RatedFleet extends OpenFleet {
  readonly asked: readonly Skill[];
  /** Rates of a skill, worked out once, or of a check. */
  readonly ratesOf: (skill: Skill) => SkillRates;
  readonly onProgress: NonNullable<FleetReportOptions['onProgress']>;
}

async function ratedFleet(
  store: Store,
  { codes, rates, withInstruments = true, onProgress = () => undefined }: FleetReportOptions,
): Promise<RatedFleet> {
  const asked = [...new Set(rates ?? [...skills, ...checks].map(({ id }) => id))].map(skillNamed);
  onProgress(0, 1, 'reading the findings');
  const fleet = await openFleet(store, codes);
  const known = new Map<string, SkillRates>();
  return {
    ...fleet,
    asked,
    onProgress,
    ratesOf: (skill) => {
      const found = known.get(skill.id) ?? skillRates(fleet.jobs, skill, { withInstruments });
      // A check is asked for once; kept, all of them would take as much memory as all else.
      if (skills.includes(skill)) known.set(skill.id, found);
      return found;
    },
  };
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
  const places = [...new Set(changes.flatMap(({ at, since }) => [at, since]))];
  await store.fillRows(
    'fleet_places',
    { place: 'BIGINT' },
    places.map((place) => [place]),
  );
  const rows = await store.rows<{ place: number; job_id: string }>(
    'SELECT place, job_id FROM temp.fleet_places JOIN temp.fleet_jobs j ON j.rowid = place',
  );
  const ids = new Map(rows.map(({ place, job_id }) => [place, job_id]));
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
