import { checkNamed, checks } from '../checks/checks.ts';
import { trigamma } from '../numerics/gamma-function.ts';
import type { FleetJobs } from './fleet-jobs.ts';
import { expectation } from './expectation.ts';
import { jobsByUnit } from './jobs-by-unit.ts';
import { checkSkill, type Skill, skillOutcome, skillOutcomes, skills, testMadeSkill } from './skill.ts';
import { fitShareSpread } from './statistics/shrunken-shares.ts';
import { unitCounts } from './unit-counts.ts';
import { seriesOf } from './skill-changes.ts';
import { type TrainingEffect, trainingEffect } from './statistics/training-effect.ts';

/**
 * People are never taken to differ by less than this [logit], since a few of them tell little of how much they do. Common practice, no
 * source.
 */
const leastSpread = 0.25;
/** Shares of findings that are rare tell of more than is believed. Common practice, no source. */
const mostSpread = 1.5;

/** What a training is about: a check, or what the checks of a group show, and whether the tests of that group were made. */
export function topicSkills(topic: string): Skill[] {
  const check = checkNamed(topic);
  if (check !== undefined) return [checkSkill(check)];
  const asksForTests = checks.some(({ group, asks }) => group === topic && asks === 'test-made');
  const skill = skills.find(({ id }) => id === topic);
  return [...(skill === undefined ? [] : [skill]), ...(asksForTests ? [testMadeSkill(topic)] : [])];
}

/**
 * What a training did to the jobs of a technician in one skill; the day of the training itself counts as before.
 *
 * @param technician its place among the technicians
 * @param day days since 1970
 */
export function trainingResult(jobs: FleetJobs, judged: JudgedSkill, technician: number, day: number): TrainingEffect {
  const [before, after]: [number[], number[]] = [[], []];
  for (const job of jobsByUnit(jobs.units.technician)[technician]) {
    if (judged.outcomes[job] < skillOutcome.clean) continue;
    (jobs.days[job] <= day ? before : after).push(job);
  }
  const [then, since] = [before, after].map((places) => seriesOf(jobs, judged, Int32Array.from(places)));
  return trainingEffect({ before: then, after: since, spread: judged.spread });
}

/** A skill that trainings are about, judged job by job. */
export interface JudgedSkill {
  readonly outcomes: Uint8Array;
  /** Expected chance of each job; NaN where it was not judged. */
  readonly chances: Float64Array;
  /** Standard deviation of the true effects of people [logit], as far as their shares tell it. */
  readonly spread: number;
}

/**
 * Judges a skill job by job.
 *
 * @param known what happened in each job and what was to be expected, where that is worked out already
 */
export function judgedSkill(
  jobs: FleetJobs,
  skill: Skill,
  known: Omit<JudgedSkill, 'spread'> = expectedOf(jobs, skill),
): JudgedSkill {
  const { outcomes, chances } = known;
  const shares = fitShareSpread(unitCounts(jobs.units.technician, outcomes));
  const spread = shares === undefined ? 0 : Math.sqrt(trigamma(shares.alpha) + trigamma(shares.beta));
  return { outcomes, chances, spread: Math.min(mostSpread, Math.max(leastSpread, spread)) };
}

function expectedOf(jobs: FleetJobs, skill: Skill): Omit<JudgedSkill, 'spread'> {
  const outcomes = skillOutcomes(jobs, skill);
  return { outcomes, chances: expectation(jobs, outcomes, skill.factors).chances };
}
