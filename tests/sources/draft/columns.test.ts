import { expect, test } from 'vitest';
import { columnsOf, draftOf, lines, unsureOf } from './draft-of.ts';

/** Headers of a run test in four languages, with what each must become. */
const runHeaders: [language: string, headers: string[]][] = [
  [
    'English',
    [
      'Suction Pressure (psig)',
      'Liquid Pressure (psig)',
      'Suction Line Temp (F)',
      'Liquid Line Temp (F)',
      'Outdoor Temp (F)',
      'Return Air (F)',
      'Supply Air (F)',
      'Wet Bulb (F)',
      'Compressor Power (kW)',
    ],
  ],
  [
    'German',
    [
      'Saugdruck (barg)',
      'Flüssigkeitsdruck (barg)',
      'Saugleitung Temperatur (°C)',
      'Flüssigkeitsleitung Temperatur (°C)',
      'Außentemperatur (°C)',
      'Rücklufttemperatur (°C)',
      'Zulufttemperatur (°C)',
      'Feuchtkugeltemperatur (°C)',
      'Leistung (kW)',
    ],
  ],
  [
    'French',
    [
      'Pression aspiration (barg)',
      'Pression liquide (barg)',
      'Température aspiration (°C)',
      'Température liquide (°C)',
      'Température extérieure (°C)',
      'Température reprise (°C)',
      'Température soufflage (°C)',
      'Température bulbe humide (°C)',
      'Puissance (kW)',
    ],
  ],
  [
    'Spanish',
    [
      'Presión succión (barg)',
      'Presión líquido (barg)',
      'Temperatura succión (°C)',
      'Temperatura líquido (°C)',
      'Temperatura exterior (°C)',
      'Temperatura retorno (°C)',
      'Temperatura impulsión (°C)',
      'Temperatura bulbo húmedo (°C)',
      'Potencia (kW)',
    ],
  ],
];

const runColumns = [
  'suction_pa',
  'liquid_pa',
  'suction_line_c',
  'liquid_line_c',
  'outdoor_c',
  'return_c',
  'supply_c',
  'indoor_wet_bulb_c',
  'compressor_w',
];

test.each(runHeaders)('the columns of a run test in %s', (_, headers) => {
  const row = [8, 25, 12, 35, 33, 24, 13, 19, 2.5];
  const draft = draftOf('a.csv', lines(`t (s);${headers.join(';')}`, `0;${row.join(';')}`, `5;${row.join(';')}`));
  const fed = Object.entries(columnsOf(draft)).slice(2);
  expect(fed.map(([name, cell]) => [name, (cell as { column: string }).column])).toEqual(
    runColumns.map((name, index) => [name, headers[index].replace(/ \(.*/, '')]),
  );
  expect(draft.leftOut).toEqual([]);
});

test.each([
  ['Vacuum (microns)', 'in header'],
  ['Vacuum, microns', 'micron'],
  ['vacuum_mbar', 'mbar'],
  ['VacuumMicron', 'micron'],
  ['Vide (mbar)', 'in header'],
  ['Vakuum [Pa]', 'in header'],
  ['Vacío (micrones)', 'micron'],
  ['MICRON', 'micron'],
])('a vacuum called %s', (name, unit) => {
  const draft = draftOf('a.csv', lines(`t (s);${name}`, '0;900', '5;800', '10;700'));
  expect(columnsOf(draft).vacuum_pa).toMatchObject({ unit });
  expect(unsureOf(draft)).toEqual(['rows.0.columns.job_id']);
});

test.each([
  ['micron', [760_000, 5000, 800, 500]],
  ['mbar', [1013, 100, 5, 1.2]],
  ['Torr', [758, 80, 2, 0.5]],
  ['kPa', [101.3, 20, 1, 0.07]],
  ['inHga', [29.9, 10, 0.5, 0.02]],
  ['micron', [4800, 2100, 900, 480]],
])('a vacuum without a unit is most likely in %s, and never silently', (unit, values) => {
  const draft = draftOf('a.csv', lines('t (s);Vacuum', ...values.map((value, index) => `${index};${value}`)));
  expect(columnsOf(draft).vacuum_pa).toEqual({ column: 'Vacuum', unit });
  expect(unsureOf(draft)).toContain('rows.0.columns.vacuum_pa.unit');
});

test('psi without more is gauge for refrigerant and nitrogen, bar is as low as it reads, and both are said', () => {
  const draft = draftOf(
    'a.csv',
    lines('t (s);Nitrogen (psi);Suction pressure (bar)', '0;500;0', '5;500;8.1', '9;499;8.2'),
  );
  expect(columnsOf(draft)).toMatchObject({ test_pressure_pa: { unit: 'psig' }, suction_pa: { unit: 'barg' } });
  expect(draft.map.site).toEqual({ altitude_m: { constant: 0 } });
  expect(unsureOf(draft)).toEqual([
    'rows.0.columns.job_id',
    'rows.0.columns.test_pressure_pa.unit',
    'rows.0.columns.suction_pa.unit',
    'site.altitude_m.constant',
  ]);
});

test('inches of mercury that rise from 0 are inches of vacuum', () => {
  const rising = draftOf('a.csv', lines('t (s);Vacuum (inHg)', '0;0', '5;20', '9;29.5'));
  expect(columnsOf(rising).vacuum_pa).toMatchObject({ unit: 'inHgv' });
  const falling = draftOf('a.csv', lines('t (s);Vacuum (inHg)', '0;29.9', '5;10', '9;0.4'));
  expect(columnsOf(falling).vacuum_pa).toMatchObject({ unit: 'inHga' });
});

test('temperatures without a unit are judged together', () => {
  const hot = draftOf('a.csv', lines('t (s);Outdoor temp;Return air temp', '0;95;75', '5;95;75'));
  expect(columnsOf(hot)).toMatchObject({ outdoor_c: { unit: 'F' }, return_c: { unit: 'F' } });
  const cool = draftOf('a.csv', lines('t (s);Outdoor temp;Return air temp', '0;35;24', '5;35;24'));
  expect(columnsOf(cool)).toMatchObject({ outdoor_c: { column: 'Outdoor temp' } });
  expect(unsureOf(cool)).toContain('rows.0.columns.outdoor_c.unit');
});

test('a unit that most values cannot be in is said', () => {
  const draft = draftOf('a.csv', lines('t (s);Vacuum (bar)', '0;900', '5;800', '10;700'));
  expect(draft.unsure.find(({ where }) => where.endsWith('vacuum_pa.unit'))?.text).toContain('would be refused');
});

test('the unit in each cell, in a column beside, or in the preamble', () => {
  const cells = draftOf(
    'a.csv',
    lines('Time,Vacuum,Pipe', '10:00:00,500 microns,70.5°F', '10:00:05,480 microns,70.5°F'),
  );
  expect(columnsOf(cells)).toMatchObject({
    vacuum_pa: { column: 'Vacuum', before: ' ', unit: 'micron' },
    line_c: { column: 'Pipe', before: '°', unit: 'F' },
  });
  const beside = draftOf('a.csv', lines('t (s),Vacuum,Vacuum unit', '0,500,mbar', '5,480,mbar'));
  expect(columnsOf(beside).vacuum_pa).toEqual({ column: 'Vacuum', unit: 'mbar' });
  const above = draftOf('a.csv', lines('Unit: mTorr', '', 't (s),Vacuum', '0,500', '5,480'));
  expect(columnsOf(above).vacuum_pa).toEqual({ column: 'Vacuum', unit: 'mTorr' });
});

test('words in columns of numbers: above the range, not read, and those that nobody knows', () => {
  const draft = draftOf(
    'a.csv',
    lines('t (s),Vacuum (micron),Pipe (C)', '0,OL,20', '5,>20000,OL', '9,---,n/a', '12,soon,20', '15,800,20'),
  );
  expect(draft.map).toMatchObject({ over_words: ['>20000', 'OL'], null_words: ['---', 'n/a', 'soon'] });
  // Only the vacuum knows "above the range".
  expect(columnsOf(draft).line_c).toMatchObject({ words: { OL: null } });
  expect(draft.unsure.filter(({ where }) => where === 'null_words').map(({ text }) => text)).toEqual([
    expect.stringContaining('"soon"'),
  ]);
});

test('two vacuum gauges are two gauges; the same in another unit is left out', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      't (min),Vacuum 1 (mbar),Vacuum 2 (mbar),Vacuum 1 (Pa)',
      '0,1013,1010,101300',
      '1,100,90,10000',
      '2,1.5,1.4,150',
    ),
  );
  expect(draft.map.rows.map(({ columns }) => [columns.gauge, columns.vacuum_pa])).toEqual([
    [{ constant: 'gauge-1' }, { column: 'Vacuum 1 (mbar)', unit: 'mbar' }],
    [{ constant: 'gauge-2' }, { column: 'Vacuum 2', unit: 'in header' }],
  ]);
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['Vacuum 1 (Pa)']);
});

test('what is computed is no reading, and every column that is not taken is listed', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      'No,t (s),Vacuum (micron),Superheat (F),Suction sat temp (F),Battery',
      '1,0,900,10,40,88',
      '2,5,800,10,40,88',
    ),
  );
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['No', 'Superheat (F)', 'Suction sat temp (F)', 'Battery']);
});

test('one row for each channel', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      'time,sensor,value,unit',
      '10:00:00,Vacuum,900,micron',
      '10:00:00,Pipe,70,F',
      '10:00:05,Vacuum,800,micron',
      '10:00:05,Battery,7,V',
    ),
  );
  expect(draft.map.rows.map(({ only, columns }) => [only?.is, columns.vacuum_pa ?? columns.line_c])).toEqual([
    [['Vacuum'], { column: 'value', unit: 'micron' }],
    [['Pipe'], { column: 'value', unit: 'F' }],
  ]);
  expect(draft.leftOut.map(({ what }) => what)).toEqual(['rows with "Battery" in sensor']);
});

test('modes, phases and refrigerants as they are written become ours', () => {
  const draft = draftOf(
    'a.csv',
    lines(
      't (s),Vacuum (micron),Mode,Phase,Refrigerant',
      '0,900,KÜHLEN,Evacuation,R410A',
      '5,800,heat,Decay test,R410A',
      '9,800,idle,,R410A',
    ),
  );
  const { run_mode: mode, phase_mark: phase } = columnsOf(draft);
  expect(mode).toMatchObject({ words: { KÜHLEN: 'cooling', heat: 'heating', idle: null } });
  expect(phase).toMatchObject({ words: { Evacuation: 'pull-down', 'Decay test': 'isolation' } });
  expect(unsureOf(draft)).toContain('rows.0.columns.run_mode.words');
});
