import { checkNamed, checks } from '../checks/checks.ts';
import { DryholdError } from '../errors.ts';
import { checkShares } from '../fleet/check-shares.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import { changesByChance, type SkillChange, skillChanges } from '../fleet/skill-changes.ts';
import { checkSkill, type Skill, skills } from '../fleet/skill.ts';
import { type SkillRates, skillRates } from '../fleet/skill-rates.ts';
import { falseDiscoveryLimit, standingOut } from '../fleet/standing-out.ts';
import { topicSkills, trainingResult } from '../fleet/training-results.ts';
import { unitRate } from '../fleet/unit-rate.ts';
import { readFleetJobs } from '../store/fleet-jobs.ts';
import type { Store } from '../store/store.ts';
import type {
  DatedChange,
  FleetReport,
  NamedUnit,
  RatesReport,
  TrainingReport,
  UnitStandingOut,
} from '../pages/fleet-data.ts';
import { technicianNamed, unitNames, type UnitNames } from './fleet-names.ts';
import { peopleNames } from './people-names.ts';
import { policyJudged } from './policy-judged.ts';

export interface FleetReportOptions {
  readonly codes: boolean;
  /** Skills and checks whose rates are given; absent: every skill and every check. */
  readonly rates?: readonly string[];
  /** How many trainings, the latest, are looked at; absent: all. */
  readonly trainings?: number;
  readonly onProgress?: (done: number, of: number, note: string) => void;
}

const dayMs = 86_400_000;

/**
 * Rates, who stands out and to whom it is laid, changes over time and effects of trainings, by the policy judged last.
 *
 * @throws DryholdError `not-judged`; `bad-usage` for rates of something that is neither a skill nor a check
 */
export async function fleetReport(store: Store, options: FleetReportOptions): Promise<FleetReport> {
  const { codes, onProgress = () => undefined } = options;
  const asked = (options.rates ?? [...skills, ...checks].map(({ id }) => id)).map(skillNamed);
  const policy = await policyJudged(store);
  const names = await peopleNames(store, codes);
  onProgress(0, 1, 'reading the findings');
  const { jobs, undated } = await readFleetJobs(
    store,
    policy.id,
    checks.map(({ id }) => id),
  );
  const unitOf = unitNames(jobs, names, codes);
  const known = new Map<string, SkillRates>();
  const ratesOf = (skill: Skill): SkillRates => {
    const rates = known.get(skill.id) ?? skillRates(jobs, skill, skills.includes(skill));
    known.set(skill.id, rates);
    return rates;
  };
  const all = skills.map((skill, at) => {
    onProgress(at + 1, skills.length + 2, skill.title);
    return ratesOf(skill);
  });
  const standing = standingOut(all);
  onProgress(skills.length + 1, skills.length + 2, 'changes and trainings');
  const changes = skillChanges(jobs, all);
  return {
    policyId: policy.id,
    period: { from: dayOf(jobs, 0), to: dayOf(jobs, jobs.count - 1) },
    jobs: jobs.count,
    undated,
    technicians: jobs.units.technician.ids.length,
    crews: jobs.units.crew.ids.length,
    falseDiscoveryLimit,
    tested: standing.tested,
    standingOut: standing.units.map(({ skill, grouping, unit, falseDiscoveryShare, laidTo }): UnitStandingOut => {
      const { groupings } = ratesOf(skill);
      const kinds = groupings.map(({ grouping: kind }) => kind);
      const grouped = groupings[kinds.indexOf(grouping)];
      return {
        unit: unitOf(grouping, unit),
        skill: named(skill),
        rate: unitRate(grouped, unit),
        falseDiscoveryShare,
        laidTo: {
          verdict: laidTo.verdict,
          people: laidTo.people.map((cell) => unitOf(kinds[cell.grouping], cell.unit)),
          shared: laidTo.shared.map((cell) => unitOf(kinds[cell.grouping], cell.unit)),
        },
        checks: skill.by === 'missing' ? [] : checkShares(jobs, skill, grouping, unit),
      };
    }),
    lookedAt: changesByChance(all),
    changes: await datedChanges(store, jobs, changes, unitOf),
    trainings: await trainingReports(
      store,
      jobs,
      ratesOf,
      (id) => technicianNamed(id, names, codes),
      options.trainings,
    ),
    rates: asked.map((skill) => ratesReport(ratesOf(skill), unitOf)),
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

function named({ id, title, counts }: Skill): Pick<Skill, 'id' | 'title' | 'counts'> {
  return { id, title, counts };
}

function dayOf(jobs: FleetJobs, place: number): string {
  return jobs.count === 0 ? '' : new Date(jobs.days[place] * dayMs).toISOString().slice(0, 10);
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
    day: dayOf(jobs, at),
    sinceJobId: ids.get(since) ?? '',
    sinceDay: dayOf(jobs, since),
    level,
    limit,
  }));
}

async function trainingReports(
  store: Store,
  jobs: FleetJobs,
  ratesOf: (skill: Skill) => SkillRates,
  nameOf: (technicianId: string) => NamedUnit,
  latest?: number,
): Promise<TrainingReport[]> {
  const all = await store.rows<{ training_id: string; technician_id: string; held_on: string; topic: string | null }>(
    `SELECT training_id, technician_id, held_on, topic FROM trainings
     WHERE technician_id IS NOT NULL AND held_on IS NOT NULL ORDER BY held_on, training_id`,
  );
  const rows = latest === undefined ? all : all.slice(Math.max(0, all.length - latest));
  const placeOf = new Map(jobs.units.technician.ids.map((id, place) => [id, place]));
  return rows.flatMap(({ training_id: trainingId, technician_id: id, held_on: day, topic }): TrainingReport[] => {
    const place = placeOf.get(id);
    const training = { trainingId, technician: nameOf(id), day, topic: topic ?? '' };
    const about = topicSkills(training.topic);
    if (about.length === 0) return [{ ...training, skill: null, effect: null }];
    return about.map((skill) => ({
      ...training,
      skill: { id: skill.id, title: skill.title },
      effect:
        place === undefined
          ? null
          : trainingResult(jobs, ratesOf(skill), place, Date.parse(`${day}T00:00:00Z`) / dayMs),
    }));
  });
}

function ratesReport({ skill, fleet, groupings }: SkillRates, unitOf: UnitNames): RatesReport {
  const { found, jobs, notEvaluated, missing } = fleet;
  return {
    skill: named(skill),
    kind: checkNamed(skill.id) === undefined ? 'skill' : 'check',
    fleet: { found, jobs, notEvaluated, missing },
    groupings: groupings.map((grouped) => ({
      kind: grouped.grouping,
      usualSpread: Math.sqrt(grouped.excess.usualVariance),
      ownSpread: grouped.own?.spread ?? null,
      units: grouped.tallies.map((_, unit) => ({ unit: unitOf(grouped.grouping, unit), ...unitRate(grouped, unit) })),
    })),
  };
}
