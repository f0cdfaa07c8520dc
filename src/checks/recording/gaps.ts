import { z } from 'zod';
import { leastGapS } from '../../facts/recording/gap-facts.ts';
import { check, limit } from '../check.ts';

/** Whether the log leaves out what something is judged by. */
export const gaps = check({
  id: 'gaps',
  group: 'recording',
  gear: ['gauge', 'scale'],
  revisit: 'record',
  question: 'Was the log kept without gaps where something is judged by it?',
  needs: ['gap_phases'],
  limits: {
    suspect_ratio: limit({
      description:
        'Share of a pull-down, hold, rise test, pressure test, charge or run that lies in gaps, from which on it is suspect',
      schema: z.number().min(0).max(1),
      default: 0.1,
      source: 'common-practice',
    }),
    fail_ratio: limit({
      description: 'Share from which on what is judged rests on what nobody saw',
      schema: z.number().min(0).max(1),
      default: 0.5,
      source: 'common-practice',
    }),
    longest_s: limit({
      description: 'A single gap of this length is suspect, whatever its share',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 300,
      source: 'common-practice',
    }),
  },
  messages: {
    kept: 'No gap that matters in {looked_at}.',
    few: 'Gaps in the {gap_phase}, the longest {gap_longest_s}, leave out {hidden_ratio} of it: little enough.',
    hides: `The log leaves out {hidden_ratio} of the {gap_phase} ({gap_phase_s}): {gap_count} of ${leastGapS} s or more, the longest {gap_longest_s} from {gap_start_s} into the log on, where a reading every {gap_usual_s} is usual. What is said of it rests on the rest; watch it again where that decides something.`,
    'rests-on-gap':
      'More than half of the {gap_phase} was not read: {hidden_ratio} of {gap_phase_s}, the longest gap {gap_longest_s} from {gap_start_s} into the log on, where a reading every {gap_usual_s} is usual. What is said of it is a guess between its ends: do it again with the recorder on.',
    'other-unit': 'The times look like another unit than seconds (see the check of units), so nothing is said of gaps.',
    'nothing-to-see': 'There is no pull-down, test, charge or run in the log to look at for gaps.',
  },
  teach:
    'Look at the recorder before the valve is closed: battery, memory, range to the phone. A test that nobody recorded is done again.',
  references: ['common-practice'],
  examples: [
    {
      name: 'every reading there',
      facts: { gap_phases: 'pull-down, hold, rise test' },
      outcome: 'pass',
      message: 'kept',
    },
    {
      name: 'half a minute of an hour',
      facts: { gap_phases: 'pressure test', ...lost('pressure test', 1, 40, 3600) },
      outcome: 'pass',
      message: 'few',
    },
    {
      name: 'a fifth of the rise test',
      facts: { gap_phases: 'rise test', ...lost('rise test', 2, 90, 600, 120) },
      outcome: 'suspect',
      message: 'hides',
    },
    {
      name: 'six minutes of a night',
      facts: { gap_phases: 'pressure test', ...lost('pressure test', 1, 360, 50000) },
      outcome: 'suspect',
      message: 'hides',
    },
    {
      name: 'the recorder slept through the rise test',
      facts: { gap_phases: 'rise test', ...lost('rise test', 1, 480, 600) },
      outcome: 'fail',
      message: 'rests-on-gap',
    },
    {
      name: 'minutes in a column of seconds',
      facts: { recorded_columns: 3, unit_column: 'elapsed_s' },
      outcome: 'not-evaluated',
      message: 'other-unit',
    },
    { name: 'nothing', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-see' },
  ],
  judge(facts, { suspect_ratio, fail_ratio, longest_s }) {
    const { gap_phases, gap_hidden_ratio: hidden, gap_longest_s, gap_phase } = facts;
    const { gap_count, gap_start_s, gap_usual_s, gap_phase_s } = facts;
    if (facts.unit_column === 'elapsed_s') return { outcome: 'not-evaluated', message: 'other-unit', evidence: {} };
    if (gap_phases === undefined) return { outcome: 'not-evaluated', message: 'nothing-to-see', evidence: {} };
    const looked_at = gap_phases;
    if (hidden === undefined || gap_longest_s === undefined || gap_phase === undefined)
      return { outcome: 'pass', message: 'kept', evidence: { looked_at } };
    const evidence = {
      looked_at,
      gap_phase,
      gap_count: gap_count === 1 ? '1 gap' : `${gap_count} gaps`,
      gap_longest_s,
      gap_start_s,
      gap_usual_s,
      gap_phase_s,
      hidden_ratio: hidden,
      limit_source: suspect_ratio.source,
    };
    const isFailed = hidden > fail_ratio.value;
    const result = { value: hidden, limit: isFailed ? fail_ratio.value : suspect_ratio.value, evidence };
    if (isFailed) return { ...result, outcome: 'fail', message: 'rests-on-gap' };
    if (hidden >= suspect_ratio.value || gap_longest_s >= longest_s.value)
      return { ...result, outcome: 'suspect', message: 'hides' };
    return { ...result, outcome: 'pass', message: 'few' };
  },
});

/** Facts of a stretch that lies in gaps for so long [s]. */
function lost(
  gap_phase: 'rise test' | 'pressure test',
  gap_count: number,
  gap_longest_s: number,
  gap_phase_s: number,
  hiddenS = gap_longest_s,
) {
  const gap_hidden_ratio = hiddenS / gap_phase_s;
  return { gap_phase, gap_count, gap_longest_s, gap_phase_s, gap_hidden_ratio, gap_start_s: 1200, gap_usual_s: 2 };
}
