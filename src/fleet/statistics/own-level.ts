import type { JudgedJobs } from './month-chart.ts';

/**
 * What was to be expected of each job once the jobs before it have shown how its unit usually does: who always has more found than others
 * does not change by that. Before the first job a unit is as all are; each job moves it as much as units differ and as little as is known.
 *
 * @param spread standard deviation of the true effects between units [logit], 0 or more; 0 where all are alike but for their jobs
 * @returns chance of each job, 0…1
 *
 * Source: one step of Newton's a job for the effect of the unit, `west-1985` (filtering of logits). Accuracy: by simulation, as `changeSignals`.
 *
 * @example ownLevel({ found: [1, 1, 0], chances: [0.5, 0.5, 0.5] }, 1)[1] // 0.5986877
 */
export function ownLevel({ found, chances }: JudgedJobs, spread: number): Float64Array {
  if (spread === 0) return Float64Array.from(chances);
  let [effect, known] = [0, 1 / spread ** 2];
  const own = new Float64Array(chances.length);
  for (let job = 0; job < own.length; job += 1) {
    const odds = Math.exp(effect);
    const chance = (odds * chances[job]) / (1 - chances[job] + odds * chances[job]);
    known += chance * (1 - chance);
    effect += (found[job] - chance) / known;
    own[job] = chance;
  }
  return own;
}
