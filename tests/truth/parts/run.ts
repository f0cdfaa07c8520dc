import { runningClaims } from '../running-claims.ts';
import { type RunningKind, runningTrial } from '../running-trial.ts';
import { drawn, part } from './part.ts';

/** The judgement of run tests. */
export const run = part({
  name: 'run',
  title: 'Run tests',
  sizes: { small: { jobs: 300 }, full: { jobs: 5000 } },
  fullS: 48,
  run({ jobs }, seed, onProgress) {
    const half = Math.ceil(jobs / 2);
    const of = (kind: RunningKind, count: number) =>
      drawn(count, `run tests, ${kind}`, (number) => runningTrial(seed, number, kind), onProgress);
    return {
      drawn: `${jobs} run tests, ${half} with good instruments, and ${half} with another refrigerant than on record`,
      claims: runningClaims(of('usual', jobs), of('good-instruments', half), of('other-refrigerant', half)),
    };
  },
});
