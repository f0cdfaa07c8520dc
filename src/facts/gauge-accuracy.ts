import type { MeasuredRecords } from './job-material.ts';

/** Accuracy of a gauge that nothing is recorded of, as a ratio of the reading. Common practice, no source. */
export const usualAccuracyRatio = 0.1;

/** Accuracy of the vacuum gauge as a ratio of the reading: the job's record, else that of the gauge; undefined for none. */
export function gaugeAccuracy({ job, gauge }: Pick<MeasuredRecords, 'job' | 'gauge'>): number | undefined {
  return job?.gauge_accuracy_ratio ?? gauge?.accuracy_ratio;
}
