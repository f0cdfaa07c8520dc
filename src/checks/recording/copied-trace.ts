import type { Facts } from '../../records/tables/facts.ts';
import { check } from '../check.ts';
import { columnWords } from '../column-words.ts';

const shared = {
  pressure_curves: 1,
  compared_curves: 1,
  match_jobs: 1,
  match_job_id: 'job-0412',
  match_column: 'vacuum_pa',
  match_readings: 900,
  match_share_ratio: 1,
  match_start_s: 12,
  match_s: 1810,
  match_shift_s: 0,
  match_scale_ratio: 1,
  match_scatter_ratio: 0,
} as const satisfies Partial<Facts>;

/** A pressure is another one times a factor from this far from 1 on, and noisier from this scatter on: more than steps of a display. */
const leastScale = 0.002;
const leastScatter = 0.002;

/** Whether a pressure curve of the job stands in another job too. */
export const copiedTrace = check({
  id: 'copied-trace',
  group: 'recording',
  revisit: 'record',
  question: 'Is this curve in no other job?',
  needs: ['compared_curves'],
  limits: {},
  messages: {
    alone: 'No curve of this job that can be told from others stands in another job.',
    same: 'The same curve stands in another job, {others}: {match_readings} readings of {what} over {match_s}, from {match_start_s} into the log on ({match_share_ratio} of the shorter curve), {how}. One of them then has no recording of its own. A logger that two jobs shared, or an export made once more under another number, does this as well: see which job the gauge was on, and whether the other has a log of its own somewhere.',
    featureless:
      'The curves of this job show nothing that tells them from others (too few readings, coarse steps, or a gauge that shows no noise), so they were held beside none.',
    'nothing-to-see': 'There is no pressure curve to hold beside others.',
  },
  teach:
    'Name the log by its job before the pump is started, and export it once. Where a recording is lost, write that down: a job without a log is better than one with the log of another.',
  references: ['common-practice'],
  examples: [
    {
      name: 'a curve of its own',
      facts: { pressure_curves: 1, compared_curves: 1 },
      outcome: 'pass',
      message: 'alone',
    },
    { name: 'the very same curve', facts: shared, outcome: 'suspect', message: 'same' },
    {
      name: 'three fifths of it, at another time and another level',
      facts: {
        ...shared,
        match_readings: 540,
        match_share_ratio: 0.98,
        match_shift_s: -86400,
        match_scale_ratio: 1.03,
      },
      outcome: 'suspect',
      message: 'same',
    },
    {
      name: 'noise over it, and in three jobs',
      facts: { ...shared, match_jobs: 3, match_scatter_ratio: 0.012 },
      outcome: 'suspect',
      message: 'same',
    },
    {
      name: 'ten readings by hand',
      facts: { pressure_curves: 1, compared_curves: 0 },
      outcome: 'not-evaluated',
      message: 'featureless',
    },
    { name: 'no readings', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-see' },
  ],
  judge(facts) {
    const { pressure_curves, compared_curves, match_jobs, match_job_id, match_column } = facts;
    if (pressure_curves === undefined || compared_curves === undefined)
      return { outcome: 'not-evaluated', message: 'nothing-to-see', evidence: {} };
    if (match_jobs === undefined || match_job_id === undefined || match_column === undefined)
      return compared_curves === 0
        ? { outcome: 'not-evaluated', message: 'featureless', evidence: { pressure_curves } }
        : { outcome: 'pass', message: 'alone', evidence: { compared_curves } };
    const further = match_jobs === 2 ? ' and 1 more' : match_jobs > 2 ? ` and ${match_jobs - 1} more` : '';
    const evidence = {
      others: `${match_job_id}${further}`,
      what: columnWords[match_column],
      match_readings: facts.match_readings,
      match_start_s: facts.match_start_s,
      match_s: facts.match_s,
      match_share_ratio: facts.match_share_ratio,
      match_shift_s: facts.match_shift_s,
      match_scale_ratio: facts.match_scale_ratio,
      how: likeness(facts),
    };
    return { outcome: 'suspect', message: 'same', value: facts.match_share_ratio, evidence };
  },
});

/** How the other curve differs, in words. */
function likeness({ match_shift_s = 0, match_scale_ratio = 1, match_scatter_ratio = 0 }: Partial<Facts>): string {
  const percent = (ratio: number) => `${(100 * ratio).toFixed(1)} %`;
  const scale = match_scale_ratio - 1;
  const differences = [
    ...(Math.abs(scale) < leastScale
      ? []
      : [`pressures ${percent(Math.abs(scale))} ${scale > 0 ? 'higher' : 'lower'} there`]),
    ...(match_scatter_ratio < leastScatter ? [] : [`${percent(match_scatter_ratio)} of noise between them`]),
    ...(Math.abs(match_shift_s) < 1 ? [] : [`at another time of the log`]),
  ];
  return differences.length === 0 ? 'reading by reading alike' : differences.join(', ');
}
