import { checks } from '../../checks/checks.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { checkSkill, type Skill, skillOutcome, skillOutcomes, skills } from '../skill.ts';
import type { FollowUps } from './follow-up.ts';

/** Something found on jobs that may foretell callbacks. */
export interface Predictor {
  readonly skill: Skill;
  /** What happened in each job of the fleet, as `skillOutcomes` gives it. */
  readonly outcomes: Uint8Array;
  /** Share of the judged jobs that have it: as much stands for a job that could not be judged [ratio]. */
  readonly usual: number;
  /** Of the jobs that were watched, how many were judged and have it. */
  readonly judged: number;
  readonly found: number;
  /** Others that hardly ever came apart from it, and that it stands for. */
  readonly standsFor: readonly Skill[];
}

/** What callbacks are held against. */
export interface Predictors {
  /** Groups of checks where callbacks are few, else single checks. */
  readonly by: 'groups' | 'checks';
  readonly chosen: readonly Predictor[];
  /** Found, or not found, on too few jobs. */
  readonly tooRare: readonly Skill[];
  /** Beyond what so few callbacks can tell apart. */
  readonly beyond: readonly Skill[];
}

/** Callbacks for each predictor, lest chance be fitted. Source: `peduzzi-1995`. */
export const callbacksEach = 10;
/** What a predictor must tell of the logarithm of its hazard ratio: as much as three callbacks on either side do. Common practice, no source. */
const leastInformation = 3;
/** Predictors of a higher correlation are taken for one. Common practice, no source. */
const sameCorrelation = 0.9;

/** The value that a predictor has in a job: 1 found, 0 not found, between where it could not be judged. */
export function predictorValue({ outcomes, usual }: Predictor, job: number): number {
  const outcome = outcomes[job];
  return outcome === skillOutcome.found ? 1 : outcome === skillOutcome.clean ? 0 : usual;
}

/**
 * What callbacks are held against: as many as so many callbacks can tell apart, chosen by what was found on the jobs and never by what
 * came of them, which would make chance look like foresight. Those that tell the most come first.
 *
 * @param callbacks how many callbacks the watch over these jobs ended with
 */
export function choosePredictors(jobs: FleetJobs, { jobs: followed }: FollowUps, callbacks: number): Predictors {
  const most = Math.floor(callbacks / callbacksEach);
  const logs = skills.filter(({ by }) => by === 'missing');
  const byChecks = among([...checks.map(checkSkill), ...logs]);
  if (byChecks.kept.length <= most)
    return { by: 'checks', chosen: byChecks.kept, tooRare: byChecks.tooRare, beyond: [] };
  const byGroups = among(skills);
  return {
    by: 'groups',
    chosen: byGroups.kept.slice(0, most),
    tooRare: byGroups.tooRare,
    beyond: byGroups.kept.slice(most).map(({ skill }) => skill),
  };

  function among(candidates: readonly Skill[]): { kept: Predictor[]; tooRare: Skill[] } {
    const sample = sampleOf(followed);
    const told = candidates
      .map((skill) => candidate(jobs, followed, skill))
      .map((each) => ({ ...each, information: callbacks * each.variance }));
    const eligible = told
      .filter(({ information }) => information >= leastInformation)
      .sort((a, b) => b.information - a.information);
    const kept: ((typeof eligible)[number] & { readonly away: Float64Array })[] = [];
    const standsFor = new Map<Skill, Skill[]>();
    for (const one of eligible) {
      const each = { ...one, away: awayFromUsual(one.predictor, sample) };
      const same = kept.find((other) => correlation(other, each) >= sameCorrelation);
      if (same === undefined) kept.push(each);
      else standsFor.set(same.predictor.skill, [...(standsFor.get(same.predictor.skill) ?? []), each.predictor.skill]);
    }
    return {
      kept: kept.map(({ predictor }) => ({ ...predictor, standsFor: standsFor.get(predictor.skill) ?? [] })),
      tooRare: told.filter(({ information }) => information < leastInformation).map(({ predictor }) => predictor.skill),
    };
  }
}

interface Candidate {
  readonly predictor: Predictor;
  /** Of its values over the jobs. */
  readonly variance: number;
}

function candidate(jobs: FleetJobs, followed: Int32Array, skill: Skill): Candidate {
  const outcomes = skillOutcomes(jobs, skill);
  const counts = new Int32Array(Object.keys(skillOutcome).length);
  for (let row = 0; row < followed.length; row += 1) counts[outcomes[followed[row]]] += 1;
  const found = counts[skillOutcome.found];
  const judged = counts[skillOutcome.clean] + found;
  const usual = judged === 0 ? 0 : found / judged;
  const variance = followed.length === 0 ? 0 : (judged * usual * (1 - usual)) / followed.length;
  return { predictor: { skill, outcomes, usual, judged, found, standsFor: [] }, variance };
}

/** Jobs over which a correlation is worked out at most. */
const mostCorrelated = 20_000;

/** Those jobs, evenly. */
export function sampleOf(followed: Int32Array): Int32Array {
  const step = Math.max(1, followed.length / mostCorrelated);
  const sample: number[] = [];
  for (let at = 0; at < followed.length; at += step) sample.push(followed[Math.floor(at)]);
  return Int32Array.from(sample);
}

/** How far the values of some jobs are from what stands for one that could not be judged. */
function awayFromUsual(predictor: Predictor, sample: Int32Array): Float64Array {
  return Float64Array.from(sample, (job) => predictorValue(predictor, job) - predictor.usual);
}

interface ComparedCandidate extends Pick<Candidate, 'variance'> {
  readonly away: Float64Array;
}

function correlation(one: ComparedCandidate, other: ComparedCandidate): number {
  let product = 0;
  for (let at = 0; at < one.away.length; at += 1) product += one.away[at] * other.away[at];
  return product / one.away.length / Math.sqrt(one.variance * other.variance);
}
