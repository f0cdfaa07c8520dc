import { check } from '../check.ts';
import { columnWords } from '../column-words.ts';

/** Whether the clock of the log ran through. */
export const clock = check({
  id: 'clock',
  group: 'recording',
  gear: ['gauge', 'scale'],
  revisit: 'record',
  question: 'Did the clock of the log run through, without being set or jumping?',
  needs: ['recorded_columns'],
  limits: {},
  messages: {
    'ran-through':
      'Nothing in the readings shows a jump of the clock; one in a stretch in which nothing moved would not show.',
    forward:
      'The clock jumps forward by about {clock_jump_s}, at {clock_jump_start_s} into the log: {what} goes on as if no time had passed, at the same slope. Every length across it is too long by that. Set the recorder’s clock before the job, and export the time elapsed.',
    'forward-hour':
      'A gap of just {clock_jump_s}, at {clock_jump_start_s} into the log, with the same readings before and after: it looks like a clock that was set, as at the change to summer time. A recorder that was off for just so long looks the same. Compare with the times that people wrote down.',
    back: 'The clock was put back by about {clock_jump_s}, at about {clock_jump_start_s} into the log: from there on {what} goes to and fro between two courses, twice as many readings as before. What is judged there rests on a mixture. Set the recorder’s clock, export the time elapsed, and take the file in again.',
    'other-unit':
      'The times look like another unit than seconds (see the check of units), so nothing is said of the clock.',
    'nothing-to-see': 'There are no readings to tell of a clock.',
  },
  teach:
    'Recorders that take the time from a phone jump when the phone does: at the change to summer time, across a zone, after a flat battery. Time elapsed since the start of the log does not jump.',
  references: ['common-practice'],
  examples: [
    { name: 'an even log', facts: { recorded_columns: 3 }, outcome: 'pass', message: 'ran-through' },
    {
      name: 'an hour ahead while it was pulled down',
      facts: {
        recorded_columns: 3,
        clock_jump: 'forward',
        clock_sign: 'course',
        clock_column: 'vacuum_pa',
        clock_jump_s: 3600,
        clock_jump_start_s: 420,
      },
      outcome: 'fail',
      message: 'forward',
    },
    {
      name: 'just an hour in a level hold',
      facts: {
        recorded_columns: 3,
        clock_jump: 'forward',
        clock_sign: 'length',
        clock_column: 'test_pressure_pa',
        clock_jump_s: 3600,
        clock_jump_start_s: 420,
      },
      outcome: 'suspect',
      message: 'forward-hour',
    },
    {
      name: 'ten minutes back',
      facts: {
        recorded_columns: 3,
        clock_jump: 'back',
        clock_sign: 'interleaved',
        clock_column: 'vacuum_pa',
        clock_jump_s: 600,
        clock_jump_start_s: 900,
      },
      outcome: 'fail',
      message: 'back',
    },
    {
      name: 'minutes in a column of seconds',
      facts: { recorded_columns: 3, unit_column: 'elapsed_s' },
      outcome: 'not-evaluated',
      message: 'other-unit',
    },
    { name: 'no readings', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-see' },
  ],
  judge({ recorded_columns, unit_column, clock_jump, clock_sign, clock_column, clock_jump_s, clock_jump_start_s }) {
    if (recorded_columns === undefined) return { outcome: 'not-evaluated', message: 'nothing-to-see', evidence: {} };
    if (unit_column === 'elapsed_s') return { outcome: 'not-evaluated', message: 'other-unit', evidence: {} };
    if (clock_jump === undefined || clock_column === undefined || clock_jump_s === undefined)
      return { outcome: 'pass', message: 'ran-through', evidence: { recorded_columns } };
    const evidence = { clock_jump_s, clock_jump_start_s: clock_jump_start_s ?? 0, what: columnWords[clock_column] };
    const result = { value: clock_jump_s, unit: 's' as const, evidence };
    if (clock_jump === 'back') return { ...result, outcome: 'fail', message: 'back' };
    return clock_sign === 'length'
      ? { ...result, outcome: 'suspect', message: 'forward-hour' }
      : { ...result, outcome: 'fail', message: 'forward' };
  },
});
