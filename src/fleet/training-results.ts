import { checkNamed, checks } from '../checks/checks.ts';
import { trigamma } from '../numerics/gamma-function.ts';
import type { FleetJobs } from './fleet-jobs.ts';
import { checkSkill, type Skill, skillOutcome, skills, testMadeSkill } from './skill.ts';
import { seriesOf } from './skill-changes.ts';
import type { GroupingRates, SkillRates } from './skill-rates.ts';
import { type TrainingEffect, trainingEffect } from './statistics/training-effect.ts';

/**
 * People are never taken to differ by less than this [logit], since a few of them tell little of how much they do. Common practice, no
 * source.
 */
const leastSpread = 0.25;

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
export function trainingResult(jobs: FleetJobs, rates: SkillRates, technician: number, day: number): TrainingEffect {
  const [before, after]: [number[], number[]] = [[], []];
  for (let job = 0; job < jobs.count; job += 1) {
    if (jobs.units.technician.of[job] !== technician || rates.outcomes[job] < skillOutcome.clean) continue;
    (jobs.days[job] <= day ? before : after).push(job);
  }
  const spread = Math.max(leastSpread, shareSpread(rates.groupings[0]));
  const [then, since] = [before, after].map((places) => seriesOf(jobs, rates, Int32Array.from(places)));
  return trainingEffect({ before: then, after: since, spread });
}

/** Standard deviation of the true shares of people [logit]; 0 where nothing tells. */
function shareSpread({ spread }: GroupingRates): number {
  return spread === undefined ? 0 : Math.sqrt(trigamma(spread.alpha) + trigamma(spread.beta));
}
