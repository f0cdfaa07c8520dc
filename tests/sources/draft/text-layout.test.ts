import { expect, test } from 'vitest';
import { columnsOf, draftOf, lines, unsureOf } from './draft-of.ts';

const rows = (delimiter: string) =>
  ['Time (s)', 'Vacuum (micron)', 'Pipe (C)']
    .join(delimiter)
    .concat('\n', lines(...[0, 5, 10, 15].map((at) => [at, 9000 - at * 100, 21].join(delimiter))));

test.each([
  [',', undefined],
  [';', ';'],
  ['\t', '\t'],
  ['|', '|'],
])('cells parted by %j', (delimiter, told) => {
  const draft = draftOf('a.csv', rows(delimiter));
  expect(draft.map.file?.delimiter).toBe(told);
  expect(columnsOf(draft)).toEqual({
    job_id: { file_name: true },
    elapsed_s: { column: 'Time (s)' },
    vacuum_pa: { column: 'Vacuum', unit: 'in header' },
    line_c: { column: 'Pipe', unit: 'in header' },
  });
});

test('a decimal comma, with points between thousands', () => {
  const { map } = draftOf('a.csv', lines('t (s);Vakuum (µm)', '0;12.345,5', '5;9.000,0', '10;950,5'));
  expect(map.file).toEqual({ delimiter: ';', decimal: ',', thousands: '.' });
});

test('a decimal comma within quotes, where commas part the cells', () => {
  const { map } = draftOf('a.csv', lines('t (s),Vakuum (µm)', '0,"1234,5"', '5,"900,25"'));
  expect(map.file).toEqual({ decimal: ',' });
});

test('a number that may be read in two ways is said to', () => {
  expect(unsureOf(draftOf('a.csv', lines('t (s);Vacuum (micron)', '0;1,234', '5;1,100')))).toContain('file.decimal');
});

test('cells in single quotes', () => {
  const { map } = draftOf('a.csv', lines("'t (s)','Vacuum (micron)'", "'0','900'", "'5','800'"));
  expect(map.file?.quote).toBe("'");
});

test('the header is found behind a preamble by how it begins, not by counting', () => {
  const preamble = ['Bench recorder', 'Time zone: UTC', 'Operator;Odd Marble', ''];
  const draft = draftOf('a.csv', lines(...preamble, 'Time;Vacuum (micron)', '10:00:00;900', '10:00:05;800'));
  expect(draft.map.file).toEqual({ delimiter: ';', header_begins: 'Time;' });
  expect(draft.map.looks_like).toEqual({ has: ['Time;Vacuum (micron)'] });
});

test('where a line before begins as the header does, lines are skipped by number, and that is said', () => {
  const draft = draftOf('a.csv', lines('t;Vacuum', 'intro', 't;Vacuum', '0;900', '5;800'));
  expect(draft.map.file?.skip_lines).toBe(2);
  expect(unsureOf(draft)).toContain('file.skip_lines');
});

test('a row of units below the header', () => {
  const draft = draftOf('a.csv', lines('Time;Deep;Pipe', '[s];[mbar];[°F]', '0;1013;70', '5;100;70', '10;2;70'));
  expect(draft.map.file).toMatchObject({ unit_row: true });
  expect(columnsOf(draft)).toMatchObject({
    vacuum_pa: { column: 'Deep', unit: 'in unit row' },
    line_c: { column: 'Pipe', unit: 'in unit row' },
  });
});

test('a footer ends the table', () => {
  const draft = draftOf(
    'a.csv',
    lines('t (s),Vacuum (micron)', '0,900', '5,800', '10,700', '', 'Lowest: 700', 'signed'),
  );
  expect(draft.map.file?.until_line).toBe('Lowest');
  expect(unsureOf(draft)).toContain('file.until_line');
});

test('a stray line within the table does not end it', () => {
  const draft = draftOf('a.csv', lines('t (s),Vacuum (micron)', '0,900', '5,800', 'pump changed', '10,700', '15,600'));
  expect(draft.map.file?.until_line).toBeUndefined();
});

test('several tables in one file become parts, and the only job of the list names the readings', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      'Jobs',
      'Job,Technician,Refrigerant,Started',
      'J-1,Odd,R410A,2026-03-05 10:00:00',
      '',
      'Readings',
      'Time (s),Vacuum (micron)',
      '0,900',
      '5,800',
      '',
      'Weighings',
      'Weighing,Job,Before (kg),After (kg)',
      '1,J-1,10.5,9.25',
    ),
  );
  expect(draft.map.parts).toEqual({
    'part-1': { header_begins: 'Job,', until_line: 'Readings' },
    'part-2': { header_begins: 'Time (s),', until_line: 'Weighings' },
    'part-3': { header_begins: 'Weighing,' },
  });
  expect(draft.map.rows.map(({ table, part }) => [table, part])).toEqual([
    ['jobs', 'part-1'],
    ['readings', 'part-2'],
    ['weighings', 'part-3'],
  ]);
  expect(draft.map.head).toEqual({ job: { line: 3, cell: 1 } });
  expect(columnsOf(draft, 1).job_id).toEqual({ head: 'job' });
});

test('the same header again, for the next log in the file, does not end the table', () => {
  const log = ['t (s),Vacuum (micron)', '0,900', '5,800', ''];
  const draft = draftOf('a.csv', lines(...log, ...log));
  expect([draft.map.parts, draft.map.file]).toEqual([undefined, {}]);
});

test('a table of which nothing is known is told, not drafted', () => {
  const draft = draftOf(
    'a.csv',
    lines('t (s),Vacuum (micron),Pipe (C)', '0,900,20', '5,800,20', '9,700,20', '', 'x,y,z', '1,2,3', '2,3,4'),
  );
  expect(draft.map.rows).toHaveLength(1);
  expect(draft.map.parts).toBeUndefined();
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['lines 6 to 8 (x, y, z)']);
});

test('a number written otherwise than the others is refused, and never "not read"', () => {
  const draft = draftOf('a.csv', lines('t (s);Vakuum (µm)', '0;1234,5', '5;900,5', '9;66.7', '12;60,25'));
  expect(draft.map.null_words).toBeUndefined();
  expect(unsureOf(draft)).toContain('file.decimal');
});

test('lines of several kinds: the commonest is drafted, the others are told', () => {
  const draft = draftOf(
    'a.csv',
    lines('H,J-1,2026-03-05', 'R,0,760000', 'R,5,80000', 'R,10,700', 'E,stop,', 'R,15,600'),
  );
  expect(draft.map.rows[0].only).toEqual({ column: 1, is: ['R'] });
  expect(draft.leftOut.map(({ what }) => what)).toEqual([
    '1 lines with "H" in column 1',
    '1 lines with "E" in column 1',
  ]);
});

test('without a header columns are told by place, and that is said', () => {
  const draft = draftOf('a.csv', lines('0,760000', '1,90000', '2,5000', '4,700'));
  expect(draft.map.file?.header).toBe(false);
  expect(columnsOf(draft)).toMatchObject({ elapsed_s: { column: 1 }, vacuum_pa: { column: 2, unit: 'micron' } });
  expect(unsureOf(draft)).toEqual([
    'file.header',
    'rows.0.columns.job_id',
    'rows.0.columns.elapsed_s',
    'rows.0.columns.vacuum_pa',
    'rows.0.columns.vacuum_pa.unit',
  ]);
});

test('rows wider than the header are told by place', () => {
  const draft = draftOf('a.csv', lines('t (s),Vacuum (micron)', '0,900,20', '5,800,20', '10,700,20'));
  expect(draft.map.file).toMatchObject({ header: false, skip_lines: 1 });
  expect(unsureOf(draft)).toContain('file.header');
});

const text = lines('Zeit;Vakuum (µm)', '10:00:00;900,5', '10:00:05;800,5');

test('UTF-16 without a byte order mark is told by its NUL bytes; with one nothing need be said', () => {
  expect(draftOf('a.csv', Buffer.from(text, 'utf16le')).map.file?.encoding).toBe('utf-16le');
  expect(draftOf('a.csv', Buffer.from(text, 'utf16le').swap16()).map.file?.encoding).toBe('utf-16be');
  expect(draftOf('a.csv', Buffer.from(`\uFEFF${text}`, 'utf16le')).map.file?.encoding).toBeUndefined();
});

test('bytes that are no UTF-8 are windows-1252, as a guess', () => {
  const draft = draftOf('a.csv', Buffer.from(text, 'latin1'));
  expect(draft.map.file?.encoding).toBe('windows-1252');
  expect(unsureOf(draft)).toContain('file.encoding');
});
