import { expect, test } from 'vitest';
import { columnsOf, draftOf, lines, unsureOf } from './draft-of.ts';

test('kelvin is told by a column alone, whatever other temperatures without a unit stand beside', () => {
  const draft = draftOf('a.csv', lines('t (s),Pipe temp,Room temp', '0,291.5,20', '5,291.2,20', '10,290.9,21'));
  expect(columnsOf(draft).line_c).toEqual({ column: 'Pipe temp', unit: 'K' });
  expect(unsureOf(draft)).toContain('rows.0.columns.line_c.unit');
});

test('a unit before the number of a gauge is a unit, and gauges called alike but for it are of one kind', () => {
  const draft = draftOf('a.csv', lines('t (s),mTorr 1,mTorr 2', '0,900,950', '5,800,870', '10,700,810'));
  expect(columnsOf(draft)).toMatchObject({ vacuum_pa: { column: 'mTorr 1', unit: 'mTorr' }, gauge: {} });
  expect(columnsOf(draft, 1)).toMatchObject({ vacuum_pa: { column: 'mTorr 2', unit: 'mTorr' }, gauge: {} });
});

test('the places of a list within a row are gauges too', () => {
  const rows = [0, 5, 10].map((at) => ({ at: 1_772_800_000 + at, micron: [900 - at, 950 - at * 40] }));
  const draft = draftOf('a.json', JSON.stringify(rows));
  expect(draft.map.rows.map(({ columns }) => columns.vacuum_pa)).toEqual([
    { column: 'micron.0', unit: 'micron' },
    { column: 'micron.1', unit: 'micron' },
  ]);
});

test('a day that no calendar has is one wrong cell, and the others are dates all the same', () => {
  const days = ['30.04.2026', '31.04.2026', '02.05.2026'];
  const draft = draftOf(
    'a.csv',
    lines('Auftrag;Monteur;Datum', ...days.map((day, index) => `A-${index};Kurbel;${day}`)),
  );
  expect(columnsOf(draft).started_at).toEqual({ column: 'Datum', time: { format: 'dd.MM.yyyy' } });
});

test('a list of jobs with the day in one column and the hour in another', () => {
  const draft = draftOf(
    'a.csv',
    lines('Job,Tech,Day,Hour', 'J-1,Crank,2026-03-05,08:00', 'J-2,Crank,2026-03-06,13:30'),
  );
  expect(draft.map.rows[0]).toMatchObject({ table: 'jobs' });
  expect(columnsOf(draft).started_at).toEqual({
    join: [{ column: 'Day' }, { column: 'Hour' }],
    with: ' ',
    time: 'local',
  });
});

test('cells parted by spaces, with a decimal comma', () => {
  const draft = draftOf('a.txt', lines('s micron', '0 900', '5 850,5', '10 800'));
  expect(draft.map.file).toEqual({ delimiter: ' ', decimal: ',' });
  expect(columnsOf(draft)).toMatchObject({ vacuum_pa: { column: 'micron', unit: 'micron' } });
});

test('a time with a space in it does not make spaces part cells', () => {
  const rows = ['2026-03-05 08:00:00', '2026-03-05 08:00:05'].map((at, index) => `${at}|${900 - index}`);
  expect(draftOf('a.csv', lines('Some recorder', 'Taken at|Vacuum (micron)', ...rows)).map.file).toMatchObject({
    delimiter: '|',
  });
});

test('a start that is told above the rows goes before the time of the first row', () => {
  const draft = draftOf(
    'a.csv',
    lines('Date: 05.03.2026', 'Started: 07:45', '', 'Time,Vacuum (micron)', '08:00:00,900', '08:00:05,800'),
  );
  expect(columnsOf(draft, 1).started_at).toMatchObject({ join: [{ head: 'date' }, { head: 'time' }] });
  expect(columnsOf(draft).elapsed_s).toMatchObject({ join: [{ head: 'date' }, { column: 'Time' }] });
});

test('the only point in time above the rows is taken for the start, and that is said', () => {
  const rows = ['t (s),Vacuum (micron)', '0,900', '5,800'];
  const draft = draftOf('a.csv', lines('Technician: Crank', 'Arrived on the roof;2026-03-05 08:15:00', ...rows));
  expect(draft.map.rows).toHaveLength(1);
  const parted = draftOf('a.csv', lines('Technician,Crank', 'On the roof,2026-03-05 08:15:00', '', ...rows));
  expect(columnsOf(parted, 1)).toMatchObject({ started_at: { head: 'date', time: 'local' } });
  expect(unsureOf(parted)).toContain('rows.1.columns.started_at');
  for (const label of ['Printed', 'Next calibration'])
    expect(
      draftOf('a.csv', lines('Technician,Crank', `${label},2026-03-05 08:15:00`, '', ...rows)).map.rows,
    ).toHaveLength(1);
});

test('a date that is called something else is taken for want of a better one, and that is said', () => {
  const draft = draftOf(
    'a.csv',
    lines('Exported at,2026-03-05 08:15:00', '', 't (s),Vacuum (micron)', '0,900', '5,800'),
  );
  expect(unsureOf(draft)).toContain('rows.1.columns.started_at');
});

test.each([
  ['a unit in brackets', 'Site (ft),5280'],
  ['a unit in the next cell', 'Site,5280,ft'],
])('a site that is so many feet is its height: %s', (_, line) => {
  const draft = draftOf(
    'a.csv',
    lines(line, 'Start,2026-03-05 08:00:00', '', 't (s),Vacuum (micron)', '0,900', '5,800'),
  );
  expect(columnsOf(draft, 1)).toMatchObject({ altitude_m: { head: 'altitude', unit: 'ft' } });
  expect(columnsOf(draft, 1).site_id).toBeUndefined();
  expect(unsureOf(draft)).toContain('rows.1.columns.altitude_m');
});

test.each(['json', 'ndjson'])('jobs with their readings inside, as %s: both come in, each job once', (kind) => {
  const job = (id: string, began: string) => ({
    id,
    technician: 'crank',
    started_at: began,
    firmware: 7,
    readings: [0, 5, 10].map((s) => ({ s, micron: 900 - s })),
  });
  const jobs = [job('J-1', '2026-03-05T08:00:00Z'), job('J-2', '2026-03-06T08:00:00Z')];
  const text = kind === 'json' ? JSON.stringify({ jobs }) : jobs.map((each) => JSON.stringify(each)).join('\n');
  const draft = draftOf(`a.${kind}`, text);
  expect(draft.map.parts).toEqual({
    'part-1': kind === 'json' ? { rows_at: 'jobs' } : {},
    'part-2': { rows_at: kind === 'json' ? 'jobs.*.readings' : 'readings' },
  });
  expect(draft.map.rows.map(({ table, part }) => [table, part])).toEqual([
    ['jobs', 'part-1'],
    ['readings', 'part-2'],
  ]);
  expect(columnsOf(draft)).toEqual({
    job_id: { column: 'id' },
    technician_id: { column: 'technician' },
    started_at: { column: 'started_at', time: 'local' },
  });
  expect(columnsOf(draft, 1)).toMatchObject({
    job_id: { column: '^id' },
    elapsed_s: { column: 's' },
    vacuum_pa: { column: 'micron' },
  });
  expect(new Set(draft.leftOut.map(({ what }) => what))).toEqual(new Set(['firmware']));
});

test.each([
  ['s', undefined],
  ['ms', 'ms'],
  ['min', 'min'],
])('a column that is called by a unit of time alone counts from the start, of each job anew: %s', (name, unit) => {
  const rows = ['J-1', 'J-2'].flatMap((job) => [0, 5, 10].map((at) => `${job},${at},${900 - at}`));
  const draft = draftOf('a.csv', lines(`Job,${name},Vacuum (micron)`, ...rows));
  expect(columnsOf(draft).elapsed_s).toEqual({ column: name, ...(unit === undefined ? {} : { unit }) });
  expect(draft.unsure).toEqual([]);
});
