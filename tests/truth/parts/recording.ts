import { recordingClaims } from '../recording-claims.ts';
import { recordingFaults } from '../../../src/simulate/mishaps/recording-faults.ts';
import { cleanTrials, faultyTrials } from '../recording-trial.ts';
import { part } from './part.ts';

/** The judgement of whether a log can be believed. */
export const recording = part({
  name: 'recording',
  title: 'Whether a log can be believed',
  sizes: { small: { jobs: 300 }, full: { jobs: 2500 } },
  fullS: 46,
  run({ jobs }, seed, onProgress) {
    const tampered = Math.ceil(jobs / 10);
    onProgress(`${jobs} logs as they were recorded`);
    const clean = cleanTrials(jobs, seed);
    onProgress(`${recordingFaults.length} faults in ${tampered} logs`);
    return {
      drawn: `${jobs} logs of a fleet as recorded, and each of ${tampered} with every fault of ${recordingFaults.length} that can happen to it`,
      claims: recordingClaims(clean, faultyTrials(tampered, seed, recordingFaults)),
    };
  },
});
