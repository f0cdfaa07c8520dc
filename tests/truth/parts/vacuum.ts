import { blindnessClaims } from '../blindness-claims.ts';
import { claim } from '../claim.ts';
import { commonPractice } from '../common-practice.ts';
import { drawTrial } from '../draw-trial.ts';
import { holdClaims } from '../hold-claims.ts';
import { isolationClaims } from '../isolation-claims.ts';
import { leakClaims } from '../leak-claims.ts';
import { plateauClaims } from '../plateau-claims.ts';
import { shapeClaims, shapeConfusion } from '../shape-claims.ts';
import { trialResult } from '../trial-result.ts';
import { drawn, part } from './part.ts';

/** The judgement of vacuum logs. */
export const vacuum = part({
  name: 'vacuum',
  title: 'Evacuations',
  sizes: { small: { jobs: 400 }, full: { jobs: 2500 } },
  fullS: 17,
  run({ jobs }, seed, onProgress) {
    const before = process.cpuUsage();
    const results = drawn(jobs, 'evacuations', (number) => trialResult(drawTrial(seed, number)), onProgress);
    const claims = [
      ...isolationClaims(results),
      ...holdClaims(results),
      ...shapeClaims(results),
      ...leakClaims(results),
      ...plateauClaims(results),
      ...blindnessClaims(results),
      claim(
        'time for the facts of a job, median',
        results.map(({ plan, factsMs }) => ({ plan, value: factsMs, badness: 0, says: '' })),
        { write: (value) => `${value.toFixed(2)} ms` },
      ),
    ];
    const [heads, ...rows] = shapeConfusion(results);
    const [practiceHeads, ...practice] = commonPractice(seed, Math.min(200, jobs));
    const { user, system } = process.cpuUsage(before);
    return {
      drawn: `${jobs} evacuations, each with gauges, hoses, leaks and water of its own, 15 % of them with something in the rise that the fit does not know`,
      claims,
      tables: [
        { title: 'Shapes of rises', heads, rows },
        {
          title: '250 µm, held 15 min, isolated 5 or 10 min, at most 500 µm, dry and tight',
          heads: practiceHeads,
          rows: practice,
        },
      ],
      notes: [`${((user + system) / 1000 / jobs).toFixed(1)} ms CPU a trial, all told`],
    };
  },
});
