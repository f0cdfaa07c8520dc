import { checkNamed } from '../checks/checks.ts';
import { RiskModel } from '../fleet/callbacks/callback-risk.ts';
import { fitWithinPeople } from '../fleet/callbacks/forerunners.ts';
import { choosePredictors } from '../fleet/callbacks/predictors.ts';
import { fewestCallbacks } from '../fleet/callbacks/risk-record.ts';
import { type CoachingTopic, coachingTopics, goingWell } from '../fleet/coaching/coaching-topics.ts';
import { type CallbackModels, savedCallbacks } from '../fleet/coaching/saved-callbacks.ts';
import { leadingChecks } from '../fleet/check-shares.ts';
import { jobsByUnit } from '../fleet/jobs-by-unit.ts';
import { skillOutcome, skills } from '../fleet/skill.ts';
import { type SkillRates, skillRates } from '../fleet/skill-rates.ts';
import { type StandingOut, standingOut } from '../fleet/standing-out.ts';
import { unitRate } from '../fleet/unit-rate.ts';
import type { CoachReport, CoachTopic, TopicCheck, TopicJob } from '../pages/coach-data.ts';
import type { Store } from '../store/store.ts';
import type { UnitSystem } from '../units/display.ts';
import { excessReport, namedCounts } from './excess-report.ts';
import { type FlaggedCheck, flaggedChecks } from './flagged-checks.ts';
import { type CallbackOptions, type OpenCallbacks, openCallbacks } from './open-callbacks.ts';
import { dayOfJob, type OpenFleet } from './open-fleet.ts';
import { resolveUnit, type ResolvedUnit } from './resolve-unit.ts';
import { topicPair } from './topic-pair.ts';
import { trainingReports } from './training-reports.ts';

export interface CoachOptions extends CallbackOptions {
  readonly units: UnitSystem;
}

/** Jobs that are told of a topic, and among how many of the latest they are looked for. */
const mostJobs = 4;
const latestJobs = 40;
/** Checks that are practised at once. */
const mostChecks = 3;

/**
 * What to coach a technician or a crew on, by the policy judged last: what, how sure it is, the jobs that show it, and what it would save.
 *
 * @param who id, name or code
 * @throws DryholdError `not-judged`, `unknown-person`, `ambiguous-person`
 */
export async function coachReport(store: Store, who: string, options: CoachOptions): Promise<CoachReport> {
  const { onProgress = () => undefined, codes } = options;
  const steps = skills.length + 3;
  onProgress(0, steps, 'reading jobs and callbacks');
  const open = await openCallbacks(store, options);
  const { fleet, summary } = open;
  const { jobs, unitOf } = fleet;
  const meant = await resolveUnit(store, jobs, who, codes);
  const all = skills.map((skill, at) => {
    onProgress(at + 1, steps, skill.title);
    return skillRates(jobs, skill, { withInstruments: false });
  });
  const standing = standingOut(jobs, all).units;
  onProgress(steps - 2, steps, 'what it would save');
  const models = summary.counted >= fewestCallbacks ? callbackModels(open) : undefined;
  onProgress(steps - 1, steps, 'jobs that show it');
  const topics: CoachTopic[] = [];
  for (const topic of coachingTopics(jobs, all, standing, meant.grouping, meant.unit)) {
    const rates = all.find(({ skill }) => skill.id === topic.skill.id);
    if (rates !== undefined)
      topics.push(await topicReport(store, open, meant, topic, rates, standing, models, options.units));
  }
  const own = jobsByUnit(jobs.units[meant.grouping])[meant.unit];
  return {
    ...fleet.summary,
    who: unitOf(meant.grouping, meant.unit),
    ownJobs: own.length,
    ownPeriod: { from: dayOfJob(jobs, own[0]), to: dayOfJob(jobs, own[own.length - 1]) },
    members: meant.grouping === 'crew' ? membersOf(fleet, own) : [],
    topics,
    goingWell: goingWell(all, meant.grouping, meant.unit).map(({ skill }) => ({
      skill: namedCounts(skill),
      rate: rateOf(all, skill.id, meant),
    })),
    trainings:
      meant.grouping === 'technician'
        ? await trainingReports(store, fleet, codes, undefined, jobs.units.technician.ids[meant.unit])
        : [],
    counted: summary.counted,
    fewest: fewestCallbacks,
  };
}

function callbackModels({ fleet: { jobs }, followed, summary }: OpenCallbacks): CallbackModels | undefined {
  const { chosen } = choosePredictors(jobs, followed, summary.counted);
  const [risk, within] = [RiskModel.fit(jobs, followed, chosen), fitWithinPeople(jobs, followed, chosen)];
  return risk === undefined || within === undefined ? undefined : { risk, within };
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

async function topicReport(
  store: Store,
  { fleet, callbacks, period }: OpenCallbacks,
  { grouping, unit }: ResolvedUnit,
  topic: CoachingTopic,
  rates: SkillRates,
  standing: readonly StandingOut[],
  models: CallbackModels | undefined,
  units: UnitSystem,
): Promise<CoachTopic> {
  const { jobs, unitOf } = fleet;
  const { skill, sureness, excess, believed, laidTo, checks } = topic;
  const own = jobsByUnit(jobs.units[grouping])[unit];
  const found = Array.from(own.filter((job) => rates.outcomes[job] === skillOutcome.found)).reverse();
  const alike = standing
    .filter((one) => one.skill.id === skill.id && one.grouping !== grouping && one.grouping !== 'technician')
    .map((one) => unitOf(one.grouping, one.unit));
  const leading = skill.by === 'missing' ? [...skill.checkIds] : leadingChecks(checks);
  const shown = await topicJobs(
    store,
    fleet,
    { places: found.slice(0, latestJobs), leading, isMissing: skill.by === 'missing' },
    units,
  );
  const saved =
    models === undefined || sureness === 'may-be-chance'
      ? null
      : savedCallbacks(jobs, models, skill, { own, found, believed }, period.horizonDays);
  const each = meanCost(callbacks);
  const report = excessReport({ skill, grouping, unit, laidTo, checks }, rates, unitOf);
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
    jobs: shown.map(({ told }) => told),
    pair:
      skill.by === 'missing' || leading.length === 0
        ? null
        : await topicPair(
            store,
            fleet,
            { checkId: leading[0], outcomes: rates.outcomes, jobs: shown.map(({ place }) => place) },
            units,
          ),
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

/** The jobs that show a topic best: flagged by its leading checks, failed before suspect, then the latest. */
async function topicJobs(
  store: Store,
  { jobs, unitOf, summary }: OpenFleet,
  {
    places,
    leading,
    isMissing,
  }: { readonly places: readonly number[]; readonly leading: readonly string[]; readonly isMissing: boolean },
  units: UnitSystem,
): Promise<{ readonly place: number; readonly told: TopicJob }[]> {
  await store.fillRows(
    'topic_places',
    { place: 'BIGINT' },
    places.map((place) => [place]),
  );
  const ids = await store.rows<{ place: number; job_id: string }>(
    'SELECT place, job_id FROM temp.topic_places JOIN temp.fleet_jobs f ON f.rowid = place',
  );
  const idOf = new Map(ids.map(({ place, job_id: id }) => [place, id]));
  const flagged = await flaggedChecks(store, summary.policyId, [...idOf.values()]);
  return places
    .flatMap((place) => {
      const jobId = idOf.get(place) ?? '';
      const of = (flagged.get(jobId) ?? []).filter(({ checkId }) => leading.includes(checkId));
      const worst = isMissing ? noLog(leading[0]) : of.toSorted((a, b) => rank(a, leading) - rank(b, leading))[0];
      if (worst === undefined) return [];
      const technician = jobs.units.technician.of[place];
      const told: TopicJob = {
        jobId,
        day: dayOfJob(jobs, place),
        technician: technician < 0 ? null : unitOf('technician', technician),
        checkId: worst.checkId,
        outcome: worst.outcome,
        text: worst.text(units),
      };
      return [{ place, told }];
    })
    .sort((a, b) => rank(a.told, leading) - rank(b.told, leading) || b.place - a.place)
    .slice(0, mostJobs);
}

/** What failed before what is suspect, then by the lead. */
function rank({ outcome, checkId }: Pick<TopicJob, 'outcome' | 'checkId'>, leading: readonly string[]): number {
  return (outcome === 'suspect' ? leading.length : 0) + leading.indexOf(checkId);
}

function noLog(checkId: string): Omit<FlaggedCheck, 'outcome'> & Pick<TopicJob, 'outcome'> {
  return { checkId, outcome: 'missing', text: () => '' };
}
