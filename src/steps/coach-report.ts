import { checkNamed } from '../checks/checks.ts';
import { fewestCallbacks } from '../fleet/callbacks/risk-record.ts';
import { leadingChecks } from '../fleet/check-shares.ts';
import { type CoachingTopic, coachingTopics, goingWell } from '../fleet/coaching/coaching-topics.ts';
import { savedCallbacks } from '../fleet/coaching/saved-callbacks.ts';
import { jobsByUnit } from '../fleet/jobs-by-unit.ts';
import { skillOutcome, skills } from '../fleet/skill.ts';
import type { SkillRates } from '../fleet/skill-rates.ts';
import { unitRate } from '../fleet/unit-rate.ts';
import type { CoachReport, CoachTopic, TopicCheck } from '../pages/coach-data.ts';
import type { TrainingReport } from '../pages/fleet-data.ts';
import type { Store } from '../store/store.ts';
import type { InUnits } from '../units/in-units.ts';
import { excessReport, namedCounts } from './excess-report.ts';
import { type CallbackOptions, type OpenCallbacks, openCallbacks } from './open-callbacks.ts';
import { dayOfJob, type OpenFleet } from './open-fleet.ts';
import { resolveUnit, type ResolvedUnit } from './resolve-unit.ts';
import { type ShownTopic, topicJobs } from './topic-jobs.ts';
import { topicPairs } from './topic-pairs.ts';
import { trainingReports } from './training-reports.ts';

/** Checks that are practised at once. */
const mostChecks = 3;

/**
 * What to coach a technician or a crew on, by the policy judged last: what, how sure it is, the jobs that show it, and what it would save.
 *
 * @param who id, name or code
 * @throws DryholdError `not-judged`, `unknown-person`, `ambiguous-person`
 */
export async function coachReport(store: Store, who: string, options: CallbackOptions): Promise<InUnits<CoachReport>> {
  options.onProgress?.(0, steps, 'reading jobs and callbacks');
  const open = await openCallbacks(store, options);
  const meant = await resolveUnit(store, open.fleet.jobs, who, options.codes);
  const [report] = await coachReportsOf(store, open, [meant], options);
  return report;
}

const steps = skills.length + 3;

/**
 * The same of callbacks that are open, for some technicians and crews at once: what all of them are held against is worked out once, and
 * the store is asked for all of their jobs together.
 *
 * @param whom each with a judged job at least
 */
export async function coachReportsOf(
  store: Store,
  open: OpenCallbacks,
  whom: readonly ResolvedUnit[],
  { onProgress = () => undefined }: Pick<CallbackOptions, 'onProgress'> = {},
): Promise<InUnits<CoachReport>[]> {
  const { fleet } = open;
  for (const [at, skill] of skills.entries()) {
    onProgress(at + 1, steps, skill.title);
    fleet.rates.of(skill);
  }
  onProgress(steps - 2, steps, 'what it would save');
  const topics = whom.map((meant) => unitTopics(open, meant));
  onProgress(steps - 1, steps, 'jobs that show it');
  const shown = await topicJobs(store, fleet, topics.flat());
  const pairs = await topicPairs(
    store,
    fleet,
    topics
      .flat()
      .map(({ isMissing, leading, rates }, at) =>
        isMissing || leading.length === 0
          ? undefined
          : { checkId: leading[0], outcomes: rates.outcomes, jobs: shown[at].map(({ place }) => place) },
      ),
  );
  const trainings = await trainingsOf(store, fleet, whom);
  let next = 0;
  return whom.map((meant, at) => {
    const first = next;
    next += topics[at].length;
    const report = {
      ...unitReport(open, meant),
      trainings: meant.grouping === 'technician' ? trainings(meant.unit) : [],
    };
    return (units) => ({
      ...report,
      topics: topics[at].map(({ told }, topic) => ({
        ...told,
        jobs: shown[first + topic].map((job) => ({ ...job.told, text: job.text(units) })),
        pair: pairs[first + topic],
      })),
    });
  });
}

/** What needs no question to the store. */
function unitReport({ fleet, summary }: OpenCallbacks, meant: ResolvedUnit): Omit<CoachReport, 'topics' | 'trainings'> {
  const { jobs, unitOf } = fleet;
  const all = fleet.rates.all();
  const own = jobsByUnit(jobs.units[meant.grouping])[meant.unit];
  return {
    ...fleet.summary,
    who: unitOf(meant.grouping, meant.unit),
    ownJobs: own.length,
    ownPeriod: { from: dayOfJob(jobs, own[0]), to: dayOfJob(jobs, own[own.length - 1]) },
    members: meant.grouping === 'crew' ? membersOf(fleet, own) : [],
    goingWell: goingWell(all, meant.grouping, meant.unit).map(({ skill }) => ({
      skill: namedCounts(skill),
      rate: rateOf(all, skill.id, meant),
    })),
    counted: summary.counted,
    fewest: fewestCallbacks,
  };
}

/** Trainings of some technicians, by their place. */
async function trainingsOf(
  store: Store,
  fleet: OpenFleet,
  whom: readonly ResolvedUnit[],
): Promise<(technician: number) => TrainingReport[]> {
  const { ids } = fleet.jobs.units.technician;
  const asked = whom.flatMap(({ grouping, unit }) => (grouping === 'technician' ? [ids[unit]] : []));
  const all = await trainingReports(store, fleet, fleet.rates, { technicianIds: new Set(asked) });
  const byWhom = Map.groupBy(all, ({ technician }) => technician.id);
  return (technician) => byWhom.get(fleet.unitOf('technician', technician).id) ?? [];
}

function rateOf(all: readonly SkillRates[], skillId: string, { grouping, unit }: ResolvedUnit) {
  const rates = all.find(({ skill }) => skill.id === skillId)?.groupings.find((one) => one.grouping === grouping);
  if (rates === undefined) throw new Error(`no rates of ${skillId} by ${grouping}`);
  return unitRate(rates, unit);
}

function membersOf({ jobs, unitOf }: OpenFleet, own: Int32Array): CoachReport['members'] {
  const counts = new Map<number, number>();
  for (const job of own) {
    const technician = jobs.units.technician.of[job];
    if (technician >= 0) counts.set(technician, (counts.get(technician) ?? 0) + 1);
  }
  return [...counts]
    .map(([technician, count]) => ({ technician: unitOf('technician', technician), jobs: count }))
    .sort((a, b) => b.jobs - a.jobs);
}

/** A skill to work on with a unit: what is told of it but for its jobs, and what its jobs are looked for by. */
interface UnitTopic extends ShownTopic {
  readonly told: Omit<CoachTopic, 'jobs' | 'pair'>;
  readonly rates: SkillRates;
}

function unitTopics(open: OpenCallbacks, { grouping, unit }: ResolvedUnit): UnitTopic[] {
  const { jobs, rates } = open.fleet;
  const [all, standing] = [rates.all(), rates.standingOut().units];
  const own = jobsByUnit(jobs.units[grouping])[unit];
  return coachingTopics(jobs, all, standing, grouping, unit).map((topic) => {
    const ofSkill = rates.of(topic.skill);
    const found = Array.from(own.filter((job) => ofSkill.outcomes[job] === skillOutcome.found)).reverse();
    const isMissing = topic.skill.by === 'missing';
    const leading = isMissing ? [...topic.skill.checkIds] : leadingChecks(topic.checks);
    return {
      told: topicTold(open, { grouping, unit }, { topic, leading, own, found }),
      rates: ofSkill,
      found,
      leading,
      isMissing,
    };
  });
}

function topicTold(
  { fleet: { jobs, unitOf, rates }, callbacks, period, models }: OpenCallbacks,
  { grouping, unit }: ResolvedUnit,
  { topic, leading, own, found }: { topic: CoachingTopic; leading: string[]; own: Int32Array; found: number[] },
): UnitTopic['told'] {
  const { skill, sureness, excess, believed, laidTo, checks } = topic;
  const alike = rates
    .standingOut()
    .units.filter((one) => one.skill.id === skill.id && one.grouping !== grouping && one.grouping !== 'technician')
    .map((one) => unitOf(one.grouping, one.unit));
  const saved =
    sureness === 'may-be-chance'
      ? null
      : savedCallbacks(jobs, models, skill, { own, found, believed }, period.horizonDays);
  const each = meanCost(callbacks);
  const report = excessReport({ skill, grouping, unit, laidTo, checks }, rates.of(skill), unitOf);
  return {
    ...report,
    sharedStandingOut: report.laidTo.shared.filter(({ kind, id }) =>
      alike.some((one) => one.kind === kind && one.id === id),
    ),
    sureness,
    excess,
    practise: leading.slice(0, mostChecks).flatMap((id): TopicCheck[] => {
      const check = checkNamed(id);
      return check === undefined ? [] : [{ checkId: id, question: check.question, teach: check.teach }];
    }),
    saves: saved && { callbacks: saved, cost: each === null ? null : each * saved.risk },
  };
}

/** Mean cost of the callbacks that commissioning probably caused; null where none is on record. */
function meanCost(callbacks: OpenCallbacks['callbacks']): number | null {
  const costs = callbacks.flatMap(({ cause, cost }) =>
    cause.cause === 'commissioning' && cost !== null ? [cost] : [],
  );
  return costs.length === 0 ? null : costs.reduce((sum, cost) => sum + cost, 0) / costs.length;
}
