import { expect, test } from 'vitest';
import { columnsOf, draftOf, lines, unsureOf } from './draft-of.ts';

test('the preamble tells of the job: a record of it, once', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      'Auftrag;J-7',
      'Techniker: Odd Marble',
      'Kältemittel;r32',
      'Datum;25.03.2026',
      'Seehöhe (ft);5280',
      'Akku;88 %',
      '',
      'Uhrzeit;Vakuum (µm);Saugdruck (psig)',
      '10:00:00;900;0',
      '10:00:05;800;0',
    ),
  );
  const moment = {
    join: [{ head: 'date' }, { column: 'Uhrzeit' }],
    with: ' ',
    time: { format: 'dd.MM.yyyy HH:mm:ss' },
  };
  expect(draft.map.head).toEqual({
    job: { after: 'Auftrag' },
    technician: { after: 'Techniker' },
    refrigerant: { after: 'Kältemittel' },
    date: { after: 'Datum' },
    altitude: { after: 'Seehöhe (ft)' },
  });
  expect(draft.map.rows[1]).toEqual({
    table: 'jobs',
    once: true,
    columns: {
      job_id: { head: 'job' },
      started_at: moment,
      technician_id: { head: 'technician' },
      refrigerant: { head: 'refrigerant', words: { r32: 'R-32' } },
      altitude_m: { head: 'altitude', unit: 'ft' },
    },
  });
  expect(draft.map.site).toEqual({ altitude_m: { head: 'altitude', unit: 'ft' } });
  expect(columnsOf(draft)).toMatchObject({ job_id: { head: 'job' }, elapsed_s: moment });
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['Akku: 88 %']);
});

test('without a date no record is drafted, and that is said', () => {
  const draft = draftOf('a.csv', lines('Technician: Odd Marble', 't (s),Vacuum (micron)', '0,900', '5,800'));
  expect(draft.map.rows).toHaveLength(1);
  expect(draft.unsure.map(({ text }) => text)).toContainEqual(expect.stringContaining('not when it began'));
});

test('a list of jobs', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      'Work order,Technician,Refrigerant,Start,Line length (ft),Weighed in (lb),Truck stock',
      'W-1,Odd,R410A,03/05/2026 08:00,25,1.25,7',
      'W-2,Pip,r-32,03/15/2026 09:00,30,0.5,7',
    ),
  );
  expect(draft.map.rows).toHaveLength(1);
  expect(draft.map.rows[0].table).toBe('jobs');
  expect(columnsOf(draft)).toEqual({
    job_id: { column: 'Work order' },
    technician_id: { column: 'Technician' },
    refrigerant: { column: 'Refrigerant', words: { R410A: 'R-410A', 'r-32': 'R-32' } },
    started_at: { column: 'Start', time: { format: 'MM/dd/yyyy HH:mm' } },
    line_length_m: { column: 'Line length', unit: 'in header' },
    weighed_in_kg: { column: 'Weighed in', unit: 'in header' },
  });
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['Truck stock']);
});

test.each([
  [
    'weighings',
    'Weighing,Cylinder,Before (kg),After (kg),Date',
    '1,C-9,12.5,11.2,2026-03-05',
    ['weighing_id', 'cylinder_id', 'start_kg', 'end_kg', 'at'],
  ],
  [
    'cylinders',
    'Cylinder no,Gas,Net weight (lb),Tare (lb),Received',
    'C-1,R410A,25,5.5,1/15/2026',
    ['cylinder_id', 'refrigerant', 'net_kg', 'tare_kg', 'acquired_on'],
  ],
  [
    'callbacks',
    'Callback ID,Date,System,Reason,Cause',
    '1,2026-05-01,S-1,no cooling,leak',
    ['callback_id', 'reported_at', 'system_id', 'reason', 'cause_found'],
  ],
  ['people', 'ID,Name,Hired', 'T-1,Odd Marble,2021-03-01', ['technician_id', 'display_name', 'hired_on']],
])('a list of %s', (table, header, row, names) => {
  const draft = draftOf('a.csv', lines(header, row, row.replace(/^(\S*?)\d/, '$12')));
  expect(draft.map.rows.map((entry) => entry.table)).toEqual([table]);
  expect(Object.keys(columnsOf(draft))).toEqual(names);
  expect(draft.leftOut).toEqual([]);
});

test('a weighing without an id of its own is told apart by others, and that is said', () => {
  const draft = draftOf('a.csv', lines('Cylinder,Before (kg),After (kg),Date', 'C-9,12.5,11.2,2026-03-05'));
  expect(columnsOf(draft).weighing_id).toMatchObject({ join: expect.any(Array) });
  expect(unsureOf(draft)).toContain('rows.0.columns.weighing_id');
});

test('JSON: the longest list, with what stands around it', () => {
  const draft = draftOf(
    'a.json',
    JSON.stringify({
      device: { model: 'bench' },
      job: { id: 'J-7', technician: 'Odd' },
      log: {
        started: '2026-03-05T10:00:00+01:00',
        readings: [
          { t_s: 0, gauge: { vacuum_micron: 900 } },
          { t_s: 5, gauge: { vacuum_micron: 700 } },
        ],
      },
    }),
  );
  expect(draft.map.file).toEqual({ rows_at: 'log.readings' });
  expect(columnsOf(draft)).toEqual({
    job_id: { head: 'job' },
    elapsed_s: { column: 't_s' },
    vacuum_pa: { column: 'gauge.vacuum_micron', unit: 'micron' },
  });
  expect(draft.map.head).toMatchObject({ job: { path: 'job.id' }, date: { path: 'log.started' } });
  expect(draft.map.time_zone).toBeUndefined();
  expect(draft.unsure).toEqual([]);
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['device model: bench']);
});

test('JSON: jobs with their readings within', () => {
  const job = (id: string) => ({
    id,
    start: '2026-03-05T10:00:00Z',
    readings: [
      { t_s: 0, vacuum_pa: 90 },
      { t_s: 5, vacuum_pa: 80 },
    ],
  });
  const draft = draftOf('a.json', JSON.stringify({ jobs: [job('J-1'), job('J-2')] }));
  expect(draft.map.file).toEqual({ rows_at: 'jobs.*.readings' });
  expect(columnsOf(draft)).toEqual({
    job_id: { column: '^id' },
    elapsed_s: { column: 't_s' },
    vacuum_pa: { column: 'vacuum_pa' },
  });
});

test('JSON under another name needs its kind, and the name to be told by', () => {
  const rows = [
    { t_s: 0, vacuum_pa: 90 },
    { t_s: 5, vacuum_pa: 80 },
  ];
  const whole = draftOf('a.csv', JSON.stringify(rows));
  expect([whole.map.file, whole.map.looks_like]).toEqual([{ kind: 'json' }, { file_name: '*.csv' }]);
  const linewise = draftOf('a.json', rows.map((row) => JSON.stringify(row)).join('\n'));
  expect([linewise.map.file, linewise.map.looks_like]).toEqual([{ kind: 'ndjson' }, { file_name: '*.json' }]);
});

test('newline-delimited JSON: nested values as paths, with the unit that stands beside', () => {
  const line = (at: number, value: number) =>
    JSON.stringify({ ts: 1_772_704_800 + at, vac: { value, unit: 'micron' }, temps: [20.5] });
  const draft = draftOf('a.ndjson', `${line(0, 900)}\n${line(5, 800)}\n`);
  expect(columnsOf(draft)).toMatchObject({
    elapsed_s: { column: 'ts', time: 'epoch_s' },
    vacuum_pa: { column: 'vac.value', unit: 'micron' },
    line_c: { column: 'temps.0' },
  });
});

test('JSON that no map reads is told', () => {
  expect(() => draftOf('a.json', JSON.stringify({ t: [0, 1], vacuum: [9, 8] }))).toThrow('side by side');
  expect(() =>
    draftOf(
      'a.json',
      JSON.stringify({
        data: [
          [0, 9],
          [1, 8],
        ],
      }),
    ),
  ).toThrow('lists without names');
});
