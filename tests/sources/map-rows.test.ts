import { join } from 'node:path';
import { expect, test } from 'vitest';
import { csv } from '../../src/sources/csv.ts';
import { noLogStarts } from '../../src/sources/log-clock.ts';
import { mapRows } from '../../src/sources/map-rows.ts';
import { mappedFile, mappedParts } from '../../src/sources/open-mapped.ts';
import { parseSourceMap } from '../../src/sources/parse-source-map.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

/** The rows that a map makes of a text: line, table, and cells; or what is wrong, and with rows of which tables. */
async function mapped(map: object, content: string) {
  const path = join(writeFiles(tempFolder(), { 'J-7.csv': content }), 'J-7.csv');
  const loaded = { map: parseSourceMap(JSON.stringify({ name: 'm', ...map }), 'map.json'), path: 'map.json' };
  const found = [];
  for (const part of mappedParts(loaded.map)) {
    const source = await csv.rows(path, part.layout);
    const file = await mappedFile(loaded, 'csv', path, part, source, noLogStarts());
    for await (const row of mapRows(file, part.entries, source)) {
      if (row.problem !== undefined) found.push([row.source.line, row.tables.join(' '), row.problem]);
      for (const { table, made, take } of row.once) {
        if ('problem' in made) found.push([row.source.line, table, made.problem]);
        else {
          found.push([row.source.line, table, ...Object.values(made.raw)]);
          take();
        }
      }
      for (const { table, raw } of row.rows) found.push([row.source.line, table, ...Object.values(raw)]);
    }
  }
  return found;
}

const gauge = (name: string, column: string | number, more: object = {}) => ({
  table: 'readings',
  ...more,
  columns: {
    vacuum_pa: { column },
    elapsed_s: { column: 1, time: 'clock' },
    gauge: { constant: name },
    job_id: { file_name: true },
  },
});

test('entries of one file share the clock of a job, whatever else is wrong with a row', async () => {
  const rows = await mapped(
    { file: { header: false }, rows: [gauge('near', 2), gauge('far', 3)] },
    '23:59:50,wet,1\n23:59:55,2,dry\n00:00:05,3,4\n',
  );
  expect(rows).toEqual([
    [1, 'readings', 'vacuum_pa: not a number: "wet"'],
    [2, 'readings', 'vacuum_pa: not a number: "dry"'],
    [3, 'readings', 'J-7', 15, 3, 'near'],
    [3, 'readings', 'J-7', 15, 4, 'far'],
  ]);
});

test('lines of several kinds go on from one another', async () => {
  const of = (kind: string, column: string) => ({
    table: 'readings',
    only: { column: 2, is: [kind] },
    columns: { job_id: { file_name: true }, elapsed_s: { column: 1, time: 'clock' }, [column]: { column: 3 } },
  });
  expect(
    await mapped(
      { file: { header: false }, rows: [of('v', 'vacuum_pa'), of('p', 'suction_pa')] },
      '23:50:00,v,500\n00:10:00,p,600000\n00:20:00,v,400\n00:30:00,x,1\n',
    ),
  ).toEqual([
    [1, 'readings', 'J-7', 0, 500],
    [2, 'readings', 'J-7', 1200, 600_000],
    [3, 'readings', 'J-7', 1800, 400],
    [4, 'readings', 'no entry of the map takes a row of this kind'],
  ]);
});

test('a row that stands once is of the first row that is right', async () => {
  const job = {
    table: 'people',
    once: true,
    columns: { technician_id: { column: 'who' }, hired_on: { column: 'on', time: 'local' } },
  };
  expect(
    await mapped(
      {
        rows: [job, { ...gauge('near', 'v'), columns: { ...gauge('near', 'v').columns, elapsed_s: { column: 't' } } }],
      },
      't,v,who,on\n0,1,a,soon\n1,2,b,2026-03-05\n2,3,c,2026-03-06\n',
    ),
  ).toEqual([
    [2, 'people', 'hired_on: not a time such as 2026-03-05 14:30:00: "soon"'],
    [2, 'readings', 'J-7', 0, 1, 'near'],
    [3, 'people', 'b', '2026-03-05'],
    [3, 'readings', 'J-7', 1, 2, 'near'],
    [4, 'readings', 'J-7', 2, 3, 'near'],
  ]);
});

test('an entry with nothing to say is silent beside one that has; where all are, the row keeps its time', async () => {
  expect(
    await mapped(
      { file: { header: false }, rows: [gauge('near', 2), gauge('far', 3)] },
      '10:00:00,1,\n10:00:10,,2\n10:00:20,,\n',
    ),
  ).toEqual([
    [1, 'readings', 'J-7', 0, 1, 'near'],
    [2, 'readings', 'J-7', 10, 2, 'far'],
    [3, 'readings', 'J-7', 20, undefined, 'near'],
  ]);
});

test('parts are read one after the other, each with its own columns', async () => {
  const columns = (of: object) => ({ job_id: { file_name: true }, elapsed_s: { column: 's' }, ...of });
  expect(
    await mapped(
      {
        parts: { one: { until_line: 'two' }, two: { after_line: 'two' } },
        rows: [
          { table: 'readings', part: 'two', columns: columns({ suction_pa: { column: 'p' } }) },
          { table: 'readings', part: 'one', columns: columns({ vacuum_pa: { column: 'v' } }) },
        ],
      },
      's,v\n0,1\ntwo\ns,p\n5,6\n',
    ),
  ).toEqual([
    [5, 'readings', 'J-7', 5, 6],
    [2, 'readings', 'J-7', 0, 1],
  ]);
});
