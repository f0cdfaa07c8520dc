import { check } from '../check.ts';
import { columnWords } from '../column-words.ts';

const frozen = { recorded_columns: 6, stuck_readings: 240, stuck_s: 600, stuck_start_s: 300 } as const;

/** Whether a sensor hung, or came to the end of its range. */
export const stuckSensor = check({
  id: 'stuck-sensor',
  group: 'recording',
  gear: ['gauge', 'scale'],
  revisit: 'record',
  question: 'Did every sensor go on reading, within its range?',
  needs: ['recorded_columns'],
  limits: {},
  messages: {
    alive: 'No column repeats a value for longer than its sensor could.',
    noise:
      'The readings of {what} repeat one value {stuck_readings} times, for {stuck_s} from {stuck_start_s} into the log on, though elsewhere at that value its last digits never rest: it looks as if it hung. What was judged then rests on an old value. Check the sensor’s battery, its range to the phone and its connection.',
    'caught-up':
      'The readings of {what} stand at one value for {stuck_s}, from {stuck_start_s} into the log on, and then jump to where they would have gone meanwhile: the display or the transmission hung. What was judged then rests on an old value. Check its battery and its range to the phone.',
    'all-along':
      'The readings of {what} show one value from first to last, {stuck_readings} times, though the system started and ran and other pressures moved. The sensor was not on the system, or hangs: look at hose, core depressor and clamp.',
    start:
      'The readings of {what} repeat one value for {stuck_s} across the start of the compressor, while the other side moved. The valve to that gauge was shut, or it hangs: look at the manifold, hose and core depressor.',
    ceiling:
      'The readings of {what} stop at one highest value for {stuck_s}, from {stuck_start_s} into the log on, and are lively below it: the end of its range, or of its display. What is above was not read. Take a gauge of a wider range.',
    floor:
      'The readings of {what} stop at one lowest value for {stuck_s}, from {stuck_start_s} into the log on, and are lively above it: the end of its range, or of its display. What is below was not read. Take a gauge of a finer range.',
    'other-unit':
      'The times look like another unit than seconds (see the check of units), so nothing is said of sensors.',
    'nothing-to-see': 'There are no readings to tell of a sensor.',
  },
  teach:
    'Before a test starts, make every instrument move once: open the valve a little, warm the clamp in the hand, lift the cylinder. One that does not answer then will not later.',
  references: ['common-practice'],
  examples: [
    { name: 'all lively', facts: { recorded_columns: 6 }, outcome: 'pass', message: 'alive' },
    {
      name: 'a gauge hung for ten minutes',
      facts: { ...frozen, stuck_column: 'vacuum_pa', stuck_sign: 'noise' },
      outcome: 'suspect',
      message: 'noise',
    },
    {
      name: 'a scale that caught up',
      facts: { ...frozen, stuck_column: 'scale_kg', stuck_sign: 'caught-up' },
      outcome: 'fail',
      message: 'caught-up',
    },
    {
      name: 'one suction pressure all along',
      facts: { ...frozen, stuck_column: 'suction_pa', stuck_sign: 'all-along' },
      outcome: 'fail',
      message: 'all-along',
    },
    {
      name: 'a valve shut at the manifold',
      facts: { ...frozen, stuck_column: 'suction_pa', stuck_sign: 'start' },
      outcome: 'fail',
      message: 'start',
    },
    ...(['ceiling', 'floor'] as const).map((sign) => ({
      name: sign,
      facts: { ...frozen, stuck_column: 'liquid_pa' as const, stuck_sign: sign },
      outcome: 'suspect' as const,
      message: sign,
    })),
    {
      name: 'minutes in a column of seconds',
      facts: { recorded_columns: 3, unit_column: 'elapsed_s' },
      outcome: 'not-evaluated',
      message: 'other-unit',
    },
    { name: 'no readings', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-see' },
  ],
  judge({ recorded_columns, unit_column, stuck_column, stuck_sign: sign, stuck_readings, stuck_s, stuck_start_s }) {
    if (recorded_columns === undefined) return { outcome: 'not-evaluated', message: 'nothing-to-see', evidence: {} };
    if (unit_column === 'elapsed_s') return { outcome: 'not-evaluated', message: 'other-unit', evidence: {} };
    if (stuck_column === undefined || sign === undefined)
      return { outcome: 'pass', message: 'alive', evidence: { recorded_columns } };
    const evidence = {
      what: columnWords[stuck_column],
      stuck_readings: stuck_readings ?? 0,
      stuck_s: stuck_s ?? 0,
      stuck_start_s: stuck_start_s ?? 0,
    };
    const isSure = sign === 'caught-up' || sign === 'all-along' || sign === 'start';
    return { outcome: isSure ? 'fail' : 'suspect', message: sign, value: stuck_s, unit: 's', evidence };
  },
});
