import { type ChangeSignal, changeSignals } from './statistics/change-signals.ts';
import type { FleetJobs, Units } from './fleet-jobs.ts';
import { jobsByUnit } from './jobs-by-unit.ts';
import type { JudgedSeries } from './statistics/month-chart.ts';
import { type Skill, skillOutcome } from './skill.ts';
import { ownLevel } from './statistics/own-level.ts';
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

/** Share of series of a hundred jobs in which nothing changes and something signals, units differing by 0.4 (`npm run fleet-power`). */
const falseSignals = 0.008;
/**
 * Units are taken to differ by so much [logit] before their first job, whatever is known of how they do: taken for alike, who always has
 * more found seems to change. Set by simulation, no source (`npm run fleet-power`): of alike people with a hundred jobs 0.5 of 100 are said
 * to have changed, with odds tripled all along 1.5; odds that triple at half time are told of 19. In a crew the differences of three people
 * are evened out to 0.4.
 */
const usualSpread = { technician: 0.7, crew: 0.4, fleet: 0 } as const;
/** A change is told for nobody with fewer judged jobs. Common practice, no source. */
const fewestJobs = 10;
/** What began among so many first jobs was so from the start: it is how the unit works, and `standingOut` tells of it. Common practice, no source. */
const firstJobs = 5;

/** What of a fleet's jobs changes are looked for by. */
export interface TimedJobs extends Pick<FleetJobs, 'count' | 'days'> {
  readonly units: Pick<FleetJobs['units'], 'technician' | 'crew'>;
}

/** What of a skill they are looked for in. */
export type TimedSkill = Pick<SkillRates, 'skill' | 'fleet' | 'outcomes' | 'chances'>;

/** Changes of all skills over time, for technicians, crews and the whole fleet, in the order of the jobs that set them off. */
export function skillChanges(jobs: TimedJobs, skills: readonly TimedSkill[]): SkillChange[] {
  const whole: Units = { ids: ['fleet'], of: new Int32Array(jobs.count) };
  const of: readonly [SkillChange['grouping'], readonly Int32Array[]][] = [
    ['technician', jobsByUnit(jobs.units.technician)],
    ['crew', jobsByUnit(jobs.units.crew)],
    ['fleet', jobsByUnit(whole)],
  ];
  return skills
    .filter(({ fleet }) => fleet.found > 0 && fleet.found < fleet.jobs)
    .flatMap((rates) =>
      of.flatMap(([grouping, units]) => {
        const spread = usualSpread[grouping];
        return units.flatMap((places, unit) =>
          changesOf(jobs, rates, places, spread).map((signal) => ({ ...signal, skill: rates.skill, grouping, unit })),
        );
      }),
    )
    .sort((a, b) => a.at - b.at);
}

/** Changes of one unit, by places among the fleet's jobs. What was so from its first jobs on is no change. */
function changesOf(jobs: TimedJobs, rates: TimedSkill, ofUnit: Int32Array, spread: number): ChangeSignal[] {
  const places = judgedPlaces(rates, ofUnit);
  if (places.length < fewestJobs) return [];
  const series = seriesOf(jobs, rates, places);
  return changeSignals({ ...series, chances: ownLevel(series, spread) })
    .filter(({ since }) => since >= firstJobs)
    .map((signal) => ({ ...signal, at: places[signal.at], since: places[signal.since] }));
}

function judgedPlaces({ outcomes }: TimedSkill, places: Int32Array): Int32Array {
  const judged = new Int32Array(places.length);
  let count = 0;
  for (let at = 0; at < places.length; at += 1) {
    if (outcomes[places[at]] < skillOutcome.clean) continue;
    judged[count] = places[at];
    count += 1;
  }
  return judged.subarray(0, count);
}

/** Judged jobs at some places as a series. */
export function seriesOf(
  jobs: Pick<TimedJobs, 'days'>,
  { outcomes, chances }: Pick<TimedSkill, 'outcomes' | 'chances'>,
  places: Int32Array,
): JudgedSeries {
  const count = places.length;
  const series = { found: new Uint8Array(count), chances: new Float64Array(count), days: new Int32Array(count) };
  for (let at = 0; at < count; at += 1) {
    const job = places[at];
    series.found[at] = outcomes[job] === skillOutcome.found ? 1 : 0;
    series.chances[at] = chances[job];
    series.days[at] = jobs.days[job];
  }
  return series;
}

/**
 * Of the series that were looked at, in how many something signals though nothing changed: in 0.8 of 100 with a hundred jobs; limits grow with the jobs.
 */
export function changesByChance(skills: readonly SkillRates[]): { series: number; byChance: number } {
  const jobs = skills.flatMap(({ groupings, fleet }) => {
    const units = groupings.filter(({ grouping }) => grouping === 'technician' || grouping === 'crew');
    return [fleet, ...units.flatMap(({ tallies }) => tallies)].filter((tally) => tally.jobs >= fewestJobs);
  });
  const hundreds = jobs.map((tally) => tally.jobs / 100);
  const byChance = hundreds.reduce((sum, count) => sum + (count < 1 ? count : 1 + Math.log(count)), 0);
  return { series: jobs.length, byChance: falseSignals * byChance };
}
