/** Our columns that readings need. */
export const needed = { job_id: { column: 'job' }, elapsed_s: { column: 't' } };
export const readings = (columns: object = {}) => [{ table: 'readings', columns: { ...needed, ...columns } }];
export const jobs = (columns: object) => [
  { table: 'jobs', columns: { job_id: { column: 'j' }, started_at: { column: 's' }, ...columns } },
];
const zone = { time_zone: 'America/Denver' };
const aColumnComesFrom =
  'a column comes from one of column, head, constant, file_name, join, sum or difference, each with its own further words';

/** What is wrong with a map, where it says so, and why. */
export const wrongMaps: [string, object, string, string][] = [
  ['no rows', { rows: [] }, 'rows', 'Too small'],
  ['a word of its own', { rows: readings(), encoding: 'utf-8' }, 'the top', 'Unrecognized key: "encoding"'],
  ['an unknown table', { rows: [{ table: 'trips', columns: {} }] }, 'rows.0.table', 'Invalid option'],
  ['a delimiter of two characters', { rows: readings(), file: { delimiter: '||' } }, 'file.delimiter', 'Too big'],
  ['a range that is none', { rows: readings(), file: { range: 'B4' } }, 'file.range', 'Invalid string'],
  ['a line that is none', { rows: readings(), head: { h: { line: 0 } } }, 'head.h.line', 'Too small'],
  ['a cell of no form', { rows: readings({ gauge: { colunm: 'g' } }) }, 'rows.0.columns.gauge', aColumnComesFrom],
  [
    'a cell of two forms',
    { rows: readings({ gauge: { column: 'g', constant: 'x' } }) },
    'rows.0.columns.gauge',
    aColumnComesFrom,
  ],
  [
    'a wrong form within a join',
    { rows: readings({ gauge: { join: [{ column: 'g' }, { heed: 'x' }] } }) },
    'rows.0.columns.gauge.join.1',
    aColumnComesFrom,
  ],
  [
    'a site of no form',
    { rows: readings(), site: { altitude_m: 1450 } },
    'site.altitude_m',
    'a column comes from one of column, head, constant or file_name',
  ],
  [
    'a site of nothing',
    { rows: readings(), site: { altitude: { constant: 1 } } },
    'site',
    'needs one of altitude_m and barometer_pa',
  ],
  [
    'a time of no form',
    { rows: readings({ elapsed_s: { column: 't', time: { fromat: 'HH' } } }) },
    'rows.0.columns.elapsed_s.time',
    'none of clock, elapsed, local, epoch_s, epoch_ms, spreadsheet and {"format": "…"}',
  ],
  ['a position that is none', { rows: readings({ gauge: { column: 0 } }) }, 'rows.0.columns.gauge.column', 'Too small'],
  [
    'a form’s word that is wrong',
    { rows: readings({ elapsed_s: { column: 't', time: 'noon' } }) },
    'rows.0.columns.elapsed_s.time',
    'none of clock, elapsed, local, epoch_s, epoch_ms, spreadsheet and {"format": "…"}',
  ],
  [
    'a sum of one',
    { rows: readings({ scale_kg: { sum: [{ column: 'a' }] } }) },
    'rows.0.columns.scale_kg.sum',
    'Too small',
  ],

  [
    'an unknown time zone',
    { rows: readings(), time_zone: 'Denver' },
    'time_zone',
    'no time zone "Denver"; such as America/Denver or -07:00',
  ],
  [
    'a quote that parts cells',
    { rows: readings(), file: { delimiter: "'", quote: "'" } },
    'file.quote',
    'the same character cannot part cells and enclose them',
  ],
  [
    'one mark for two things',
    { rows: readings(), file: { decimal: ',', thousands: ',' } },
    'file.thousands',
    'the same character cannot stand before the decimals and part thousands',
  ],
  ['a head of no place', { rows: readings(), head: { h: {} } }, 'head.h', 'needs one of after, line and path'],
  [
    'a head of two places',
    { rows: readings(), head: { h: { line: 1, after: 'x' } } },
    'head.h',
    'needs one of after, line and path',
  ],
  [
    'a site’s head that is not there',
    { rows: readings(), site: { altitude_m: { head: 'h' } } },
    'site.altitude_m',
    '"head" has no "h"',
  ],
  [
    'a site’s unit of another dimension',
    { rows: readings(), site: { altitude_m: { constant: 1, unit: 'kPa' } } },
    'site.altitude_m',
    '"kPa" is no unit of length counted from nothing',
  ],
  [
    'a barometer that counts from the air',
    { rows: readings(), site: { barometer_pa: { constant: 1, unit: 'psig' } } },
    'site.barometer_pa',
    '"psig" is no unit of pressure counted from nothing',
  ],

  ['a part that is not there', { rows: [{ ...readings()[0], part: 'x' }] }, 'rows.0.part', '"parts" has no "x"'],
  [
    'no part where there are some',
    { rows: readings(), parts: { one: {}, two: {} } },
    'rows.0',
    'needs "part", one of one, two',
  ],
  [
    'a column that is none of ours',
    { rows: readings({ vacuum: { column: 'v' } }) },
    'rows.0.columns.vacuum',
    'table readings has no column "vacuum"',
  ],
  [
    'a required column left out',
    { rows: [{ table: 'readings', columns: { job_id: { column: 'j' } } }] },
    'rows.0.columns',
    'table readings needs column "elapsed_s"',
  ],
  [
    'a head that is not there',
    { rows: readings({ gauge: { head: 'h' } }) },
    'rows.0.columns.gauge',
    '"head" has no "h"',
  ],
  [
    'the same within a join',
    { rows: readings({ gauge: { join: [{ head: 'h' }] } }) },
    'rows.0.columns.gauge',
    '"head" has no "h"',
  ],

  [
    'a sum of texts',
    { rows: readings({ gauge: { sum: [{ column: 'a' }, { column: 'b' }] } }) },
    'rows.0.columns.gauge',
    'a sum or a difference feeds only a column of numbers',
  ],
  [
    'a time in a difference',
    { rows: readings({ elapsed_s: { difference: [{ column: 'a', time: 'clock' }, { column: 'b' }] } }) },
    'rows.0.columns.elapsed_s',
    'a time cannot be part of a sum or a difference',
  ],
  [
    'a time within a join',
    { rows: readings({ elapsed_s: { join: [{ column: 'a', time: 'clock' }] } }) },
    'rows.0.columns.elapsed_s',
    'the time belongs to the whole: join the texts, then say how the time is written',
  ],
  [
    'a constant of the wrong kind',
    { rows: readings({ vacuum_pa: { constant: 'deep' } }) },
    'rows.0.columns.vacuum_pa',
    'not a number: "deep"',
  ],
  [
    'a constant out of range',
    { rows: readings({ line_c: { constant: 900 } }) },
    'rows.0.columns.line_c',
    'the constant does not fit: ',
  ],
  [
    'a constant that is no word of ours',
    { rows: readings({ run_mode: { constant: 'dancing' } }) },
    'rows.0.columns.run_mode',
    'the constant does not fit: ',
  ],
  [
    'a range of what has none',
    { rows: readings({ suction_pa: { column: 'a', over_from: 5 } }) },
    'rows.0.columns.suction_pa',
    'this column knows no "above the range"',
  ],

  [
    'an unknown unit',
    { rows: readings({ vacuum_pa: { column: 'v', unit: 'furlong' } }) },
    'rows.0.columns.vacuum_pa',
    'unknown unit "furlong"; known: Pa, hPa',
  ],
  [
    'a unit of another dimension',
    { rows: readings({ vacuum_pa: { column: 'v', unit: 'kg' } }) },
    'rows.0.columns.vacuum_pa',
    '"kg" does not measure what the column holds (Pa)',
  ],
  [
    'the same within a sum',
    {
      rows: readings({
        scale_kg: {
          sum: [
            { column: 'a', unit: 'lb' },
            { column: 'b', unit: 'm' },
          ],
        },
      }),
    },
    'rows.0.columns.scale_kg',
    '"m" does not measure what the column holds (kg)',
  ],
  [
    'a unit of what has none',
    { rows: jobs({ gauge_accuracy_ratio: { column: 'a', unit: 'Pa' } }) },
    'rows.0.columns.gauge_accuracy_ratio',
    '"Pa" does not measure what the column holds (no unit)',
  ],
  [
    'a gauge unit of no pressure',
    { rows: readings({ line_c: { column: 'a', unit: 'psig' } }) },
    'rows.0.columns.line_c',
    '"psig" does not measure what the column holds (°C)',
  ],
  [
    'a gauge unit without a site',
    { rows: readings({ suction_pa: { column: 'a', unit: 'psig' } }) },
    'rows.0.columns.suction_pa',
    '"psig" counts from the air around the gauge: the map needs "site" with altitude_m or barometer_pa',
  ],
  [
    'a head’s unit in the header',
    { rows: readings({ line_c: { head: 'h', unit: 'in header' } }), head: { h: { line: 1 } } },
    'rows.0.columns.line_c',
    'only a column of the file has its unit "in header"',
  ],
  [
    'a constant’s unit below the header',
    { rows: readings({ line_c: { constant: 5, unit: 'in unit row' } }) },
    'rows.0.columns.line_c',
    'only a column of the file has its unit "in unit row"',
  ],

  [
    'a time of day for what is no time',
    { rows: readings({ suction_pa: { column: 'a', time: 'clock' } }) },
    'rows.0.columns.suction_pa',
    'a time of day feeds only a column of seconds',
  ],
  [
    'a time for what is no time',
    { rows: readings({ gauge: { column: 'a', time: 'local' } }) },
    'rows.0.columns.gauge',
    'a time feeds only a column of seconds, of a point in time or of a day',
  ],
  [
    'a time of day for how long something took',
    { rows: jobs({ rise_test_s: { column: 'a', time: 'clock' } }) },
    'rows.0.columns.rise_test_s',
    'how long something took is no point in time: only "elapsed" feeds it',
  ],
  [
    'a time of day for a point in time',
    { rows: jobs({ ended_at: { column: 'a', time: 'clock' } }), ...zone },
    'rows.0.columns.ended_at',
    'a time without a date is no point in time',
  ],
  [
    'a time since the start for one',
    { rows: jobs({ ended_at: { column: 'a', time: 'elapsed' } }), ...zone },
    'rows.0.columns.ended_at',
    'a time without a date is no point in time',
  ],
  [
    'a day number without a zone',
    { rows: jobs({ ended_at: { column: 'a', time: 'spreadsheet' } }) },
    'rows.0.columns.ended_at',
    'the map needs "time_zone": where the clocks stand',
  ],
  [
    'a pattern without a zone',
    { rows: jobs({ ended_at: { column: 'a', time: { format: "yyyy-MM-dd'Z'HH:mm" } } }) },
    'rows.0.columns.ended_at',
    'the map needs "time_zone": where the clocks stand',
  ],
];
