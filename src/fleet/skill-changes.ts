import { type ChangeSignal, changeSignals } from './change-signals.ts';
import type { FleetJobs, Grouping, Units } from './fleet-jobs.ts';
import { jobsByUnit } from './jobs-by-unit.ts';
import type { JudgedSeries } from './month-chart.ts';
import { type Skill, skillOutcome } from './skill.ts';
import { ownLevel } from './own-level.ts';
import type { SkillRates } from './skill-rates.ts';

/** A unit, or the whole fleet, is no longer what was expected of it. Jobs are places among the fleet's jobs. */
export interface SkillChange {
  readonly skill: Skill;
  readonly grouping: 'technician' | 'crew' | 'fleet';
  readonly unit: number;
  readonly direction: ChangeSignal['direction'];
  readonly chart: ChangeSignal['chart'];
  /** The job that set it off. */
  readonly at: number;
  /** The job with which it seems to have begun. */
  readonly since: number;
  readonly level: number;
  readonly limit: number;
}

/** A change is told for nobody with fewer judged jobs. Common practice, no source. */
const fewestJobs = 10;
/** What began among so many first jobs was so from the start: it is how the unit works, and `standingOut` tells of it. Common practice, no source. */
const firstJobs = 5;

/** Changes of a skill over time, for technicians, crews and the whole fleet, in the order of the jobs that set them off. */
export function skillChanges(jobs: FleetJobs, rates: SkillRates): SkillChange[] {
  const { skill, outcomes, fleet } = rates;
  if (fleet.found === 0 || fleet.found === fleet.jobs) return [];
  const isJudged = (job: number): boolean => outcomes[job] >= skillOutcome.clean;
  const whole: Units = { ids: ['fleet'], of: new Int32Array(jobs.count) };
  const of: readonly [SkillChange['grouping'], Units][] = [
    ['technician', jobs.units.technician],
    ['crew', jobs.units.crew],
    ['fleet', whole],
  ];
  return of
    .flatMap(([grouping, units]) =>
      jobsByUnit(units, isJudged).flatMap((places, unit) =>
        places.length < fewestJobs
          ? []
          : changesOf(jobs, rates, places, usualSpread(rates, grouping)).map((signal) => ({
              ...signal,
              skill,
              grouping,
              unit,
            })),
      ),
    )
    .sort((a, b) => a.at - b.at);
}

/** Changes of one unit, by places among the fleet's jobs. What was so from its first jobs on is no change. */
function changesOf(jobs: FleetJobs, rates: SkillRates, places: Int32Array, spread: number): ChangeSignal[] {
  const series = seriesOf(jobs, rates, places);
  return changeSignals({ ...series, chances: ownLevel(series, spread) })
    .filter(({ since }) => since >= firstJobs)
    .map((signal) => ({ ...signal, at: places[signal.at], since: places[signal.since] }));
}

/** How much units usually differ, beyond chance [logit]. */
function usualSpread({ groupings }: SkillRates, grouping: SkillChange['grouping']): number {
  return Math.sqrt(groupings.find((each) => each.grouping === grouping)?.excess.usualVariance ?? 0);
}

/** The jobs at some places as a series. */
export function seriesOf(jobs: FleetJobs, { outcomes, chances }: SkillRates, places: Int32Array): JudgedSeries {
  return {
    found: Uint8Array.from(places, (job) => Number(outcomes[job] === skillOutcome.found)),
    chances: Float64Array.from(places, (job) => chances[job]),
    days: Float64Array.from(places, (job) => jobs.days[job]),
  };
}

/** How many charts were looked at. */
export function chartsLookedAt(rates: readonly SkillRates[]): number {
  const judged = ({ jobs }: { readonly jobs: number }): number => Number(jobs >= fewestJobs);
  return rates.reduce(
    (sum, { groupings, fleet }) =>
      sum +
      judged(fleet) +
      groupings
        .filter(({ grouping }: { readonly grouping: Grouping }) => grouping === 'technician' || grouping === 'crew')
        .reduce((units, { tallies }) => units + tallies.reduce((count, tally) => count + judged(tally), 0), 0),
    0,
  );
}
