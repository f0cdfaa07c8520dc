import { chargeClaims } from '../charge-claims.ts';
import { chargeTrials } from '../charge-trial.ts';
import { weighInClaims } from '../weigh-in-claims.ts';
import { weighInTrial } from '../weigh-in-trial.ts';
import { drawn, part } from './part.ts';

/** The judgement of weigh-ins and charges. */
export const charge = part({
  name: 'charge',
  title: 'Weigh-ins and charges',
  sizes: { small: { jobs: 400 }, full: { jobs: 5000 } },
  fullS: 38,
  run({ jobs }, seed, onProgress) {
    const weighIns = drawn(jobs, 'weigh-ins', (number) => weighInTrial(seed, number), onProgress);
    onProgress(`${jobs} jobs of a fleet`);
    return {
      drawn: `${jobs} weigh-ins alone, and the charges of ${jobs} jobs of a fleet`,
      claims: [...weighInClaims(weighIns), ...chargeClaims(chargeTrials(jobs, seed))],
    };
  },
});
