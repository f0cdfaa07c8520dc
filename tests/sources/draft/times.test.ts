import { expect, test } from 'vitest';
import { columnsOf, draftOf, lines, unsureOf } from './draft-of.ts';

const elapsed = (name: string, ...times: string[]) =>
  draftOf('a.csv', lines(`${name};Vacuum (micron)`, ...times.map((time, index) => `${time};${900 - index}`)));

test.each([
  ['10:00:00', '10:00:05', { column: 'Time', time: 'clock' }],
  ['0:00:00', '0:00:05', { column: 'Time', time: 'elapsed' }],
  ['25:00:00', '25:00:05', { column: 'Time', time: 'elapsed' }],
  ['2:30:00 PM', '2:30:05 PM', { column: 'Time', time: 'clock' }],
  ['2026-03-05 14:30:00', '2026-03-05 14:30:05', { column: 'Time', time: 'local' }],
  ['2026-03-05T14:30:00.5Z', '2026-03-05T14:30:05Z', { column: 'Time', time: 'local' }],
  ['1772704800', '1772704805', { column: 'Time', time: 'epoch_s' }],
  ['1772704800000', '1772704805000', { column: 'Time', time: 'epoch_ms' }],
  ['46086.5', '46086.50001', { column: 'Time', time: 'spreadsheet' }],
  ['25.03.2026 14:30:00', '25.03.2026 14:30:05', { column: 'Time', time: { format: 'dd.MM.yyyy HH:mm:ss' } }],
  ['3/25/2026 2:30 PM', '3/25/2026 2:31 PM', { column: 'Time', time: { format: 'M/d/yyyy h:mm a' } }],
  [
    '25-Mar-2026 14:30:00.250',
    '25-Mar-2026 14:30:05.250',
    { column: 'Time', time: { format: 'dd-MMM-yyyy HH:mm:ss.SSS' } },
  ],
  ['2026/03/25 14:30:00', '2026/03/25 14:30:05', { column: 'Time', time: { format: 'yyyy/MM/dd HH:mm:ss' } }],
  ['25/03/26 14:30:00', '25/03/26 14:30:05', { column: 'Time', time: { format: 'dd/MM/yy HH:mm:ss' } }],
])('times such as %s', (first, second, cell) => {
  expect(columnsOf(elapsed('Time', first, second)).elapsed_s).toEqual(cell);
});

test.each([
  ['Elapsed (min)', { column: 'Elapsed (min)', unit: 'min' }],
  ['elapsed_ms', { column: 'elapsed_ms', unit: 'ms' }],
  ['Sekunden', { column: 'Sekunden' }],
  ['Minutes', { column: 'Minutes', unit: 'min' }],
])('numbers since the start called %s', (name, cell) => {
  const draft = elapsed(name, '0', '5', '10');
  expect(columnsOf(draft).elapsed_s).toEqual(cell);
  expect(unsureOf(draft)).toEqual(['rows.0.columns.job_id']);
});

test('numbers without a unit of time are seconds, and that is said', () => {
  expect(unsureOf(elapsed('Elapsed', '0', '5', '10'))).toContain('rows.0.columns.elapsed_s.unit');
});

test('day and month that could be swapped are said to; the month first, but where the decimals have a comma', () => {
  const ours = elapsed('Time', '03/05/2026 10:00:00', '03/05/2026 10:00:05');
  expect(columnsOf(ours).elapsed_s).toMatchObject({ time: { format: 'MM/dd/yyyy HH:mm:ss' } });
  expect(unsureOf(ours)).toContain('rows.0.columns.elapsed_s.time.format');
  const comma = draftOf('a.csv', lines('Time;Vide (mbar)', '03/05/2026 10:00:00;9,25', '03/05/2026 10:00:05;8,5'));
  expect(columnsOf(comma).elapsed_s).toMatchObject({ time: { format: 'dd/MM/yyyy HH:mm:ss' } });
});

test('date and time in two columns are joined, and the zone is a guess', () => {
  const draft = draftOf(
    'a.csv',
    lines('Date;Time;Vacuum (micron)', '2026-03-05;10:00:00;900', '2026-03-05;10:00:05;800'),
  );
  expect(columnsOf(draft).elapsed_s).toEqual({
    join: [{ column: 'Date' }, { column: 'Time' }],
    with: ' ',
    time: 'local',
  });
  expect(draft.map.time_zone).toBe('America/Denver');
  expect(unsureOf(draft)).toContain('time_zone');
});

test('a zone that the preamble tells is taken, with nothing to look at', () => {
  const draft = draftOf(
    'a.csv',
    lines('Time zone;UTC+2', 'Time;Vacuum (micron)', '2026-03-05 10:00:00;900', '2026-03-05 10:00:05;800'),
  );
  expect(draft.map.time_zone).toBe('+02:00');
  expect(unsureOf(draft)).not.toContain('time_zone');
});

test('one wrong word among times is refused alone', () => {
  const draft = elapsed('Time', '10:00:00', '10:00:05', 'noon', '10:00:10', '10:00:15');
  expect(columnsOf(draft).elapsed_s).toEqual({ column: 'Time', time: 'clock' });
});

test('numbers that look like points in time are taken for them, whatever the column is called', () => {
  const draft = elapsed('tick', '1772704800', '1772704805', '1772704810');
  expect(columnsOf(draft).elapsed_s).toEqual({ column: 'tick', time: 'epoch_s' });
  expect(unsureOf(draft)).not.toContain('rows.0.columns.elapsed_s.unit');
});

test('hours and minutes alone could be minutes and seconds', () => {
  expect(unsureOf(elapsed('Time', '14:30', '14:31', '14:32'))).toContain('rows.0.columns.elapsed_s.time');
});
