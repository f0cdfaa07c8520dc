import { drawStandingTrial } from '../draw-standing-trial.ts';
import { standingClaims } from '../standing-claims.ts';
import { standingTrial } from '../standing-trial.ts';
import { drawn, part } from './part.ts';

/** The judgement of standing pressure tests. */
export const pressure = part({
  name: 'pressure',
  title: 'Standing pressure tests',
  sizes: { small: { jobs: 300 }, full: { jobs: 1500 } },
  fullS: 20,
  run({ jobs }, seed, onProgress) {
    const tests = (number: number) => standingTrial(drawStandingTrial(seed, number));
    return {
      drawn: `${jobs} standing pressure tests of 15 minutes to 24 hours, in sun and weather`,
      claims: standingClaims(drawn(jobs, 'standing pressure tests', tests, onProgress)),
    };
  },
});
