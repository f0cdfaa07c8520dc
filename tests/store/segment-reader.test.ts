import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ColumnBuffers } from '../../src/store/column-buffers.ts';
import { copyToSegment } from '../../src/store/reading-part.ts';
import { SegmentReader } from '../../src/store/segment-reader.ts';
import { literal } from '../../src/store/sql.ts';
import type { Store } from '../../src/store/store.ts';
import { inStore, tempFolder } from './temp-store.ts';

const rows = 300_000;

/** Columns as sources have them, by how DuckDB keeps them: in full or by a dictionary, with and without absent values. */
const columns: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  elapsed_s: { 'each once': 'i / 2.0', 'few, repeated': '(i % 5000) * 0.5', negative: '-1e9 + i' },
  vacuum_pa: {
    'over and absent': "CASE hash(i) % 7 WHEN 0 THEN NULL WHEN 1 THEN 'inf'::DOUBLE ELSE hash(i) % 40000 END",
    'absent in whole row groups': 'CASE WHEN i // 122880 = 1 THEN NULL ELSE sqrt(i) END',
    'none at all': 'NULL::DOUBLE',
  },
  line_c: { sparse: 'CASE WHEN i % 97 = 13 THEN round(sin(i / 1000.0), 1) END' },
  gauge: {
    two: "CASE WHEN i % 2 = 0 THEN 'left' ELSE 'right' END",
    'named at times': "CASE WHEN hash(i) % 3 > 0 THEN 'µ''s ' || (hash(i) % 10) END",
    'more than a few': "CASE WHEN hash(i) % 3 > 0 THEN 'µ''s ' || (hash(i) % 3000) END",
  },
  phase_mark: {
    runs: "CASE WHEN i % 4000 > 500 THEN ['pull-down', 'hold', 'isolation'][1 + (i // 500) % 3] END",
    none: 'NULL::VARCHAR',
  },
};

const cases = Object.entries(columns).flatMap(([column, kinds]) =>
  Object.entries(kinds).map(([kind, sql]) => [column, kind, sql] as const),
);

/** Within a row group, across one and two of their borders, the first and the last row. */
const places = [
  [0, 1],
  [50_000, 60_000],
  [122_879, 122_881],
  [100_000, 299_000],
  [rows - 1, rows],
  [0, rows],
];

test.each(cases)('%s, %s: every row at its place', async (column, _, sql) => {
  await withSegment(`CAST(${sql} AS ${isText(column) ? 'VARCHAR' : 'DOUBLE'}) AS ${column}`, async (store, path) => {
    const all = await valuesBy(store, column, path);
    const reader = await SegmentReader.begin();
    const buffers = new ColumnBuffers();
    for (const [from, to] of places) {
      const slice = { path, columns: ['job_id', column], firstRow: from, rows: to - from };
      const words = isText(column) ? await reader.words(slice, column) : [];
      const known = isText(column) ? { [column]: words } : {};
      const values = (await reader.columns(slice, isText(column) ? [] : [column], known, buffers))[column] ?? [];
      const read = isText(column) ? Array.from(values, (place) => words[place - 1] ?? null) : values;
      expect(read).toHaveLength(to - from);
      expect(firstDifference(read, all.slice(from, to))).toBe(-1);
    }
    reader.close();
  });
});

test('several columns at once, a word that is not looked for, a column that the segment lacks', async () => {
  await withSegment("i / 2.0 AS elapsed_s, ['hold', 'run', NULL][1 + i % 3] AS phase_mark", async (_, path) => {
    const reader = await SegmentReader.begin();
    const slice = { path, columns: ['job_id', 'elapsed_s', 'phase_mark'], firstRow: 2, rows: 4 };
    const texts = { phase_mark: ['pull-down', 'run'], gauge: ['left'] };
    expect(await reader.columns(slice, ['elapsed_s', 'vacuum_pa'], texts)).toEqual({
      elapsed_s: Float64Array.of(1, 1.5, 2, 2.5),
      phase_mark: Float64Array.of(0, 0, 2, 0),
    });
    expect(await reader.words(slice, 'phase_mark')).toEqual(['hold', 'run']);
    expect(await reader.words(slice, 'gauge')).toEqual([]);
    reader.close();
  });
});

test('a file that is gone, that is none, or that is too short is heard', async () => {
  await withSegment('i / 2.0 AS elapsed_s', async (store, path) => {
    const reader = await SegmentReader.begin();
    const slice = { path, columns: ['elapsed_s'], firstRow: rows - 2, rows: 3 };
    await expect(reader.columns(slice, ['elapsed_s'])).rejects.toMatchObject({
      code: 'file-unreadable',
      parameters: { path, problem: `holds 2 rows from row ${rows - 2} where the store knows of 3` },
    });
    await expect(reader.columns({ ...slice, path: '/nowhere.parquet' }, ['elapsed_s'])).rejects.toMatchObject({
      code: 'file-unreadable',
      parameters: { path: '/nowhere.parquet', problem: 'it is gone, and the store needs it' },
    });
    const catalogue = join(store.folder, 'catalogue.duckdb');
    await expect(reader.columns({ ...slice, path: catalogue }, ['elapsed_s'])).rejects.toMatchObject({
      code: 'file-unreadable',
      message: expect.stringMatching(/catalogue\.duckdb: cannot be read: .*No magic bytes/),
    });
    reader.close();
  });
});

/** Makes a segment of so many rows, `i` their number, for as long as the work takes. */
async function withSegment(select: string, work: (store: Store, path: string) => Promise<void>): Promise<void> {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const path = join(store.segmentsFolder, 'staged.parquet');
    await store.run(copyToSegment(`SELECT i::VARCHAR AS job_id, ${select} FROM range(${rows}) r(i)`, path));
    await work(store, path);
  });
}

function isText(column: string): boolean {
  return column === 'gauge' || column === 'phase_mark';
}

/** A column by the engine's own conversion, absent numbers as NaN, absent texts as null. */
async function valuesBy(store: Store, column: string, path: string): Promise<unknown[]> {
  const reader = await store.connection.runAndReadAll(
    `SELECT ${column} FROM read_parquet(${literal(path)}, file_row_number = true) ORDER BY file_row_number`,
  );
  const values = reader.getColumnsJS()[0] as unknown[];
  return isText(column) ? values : values.map((value) => value ?? Number.NaN);
}

/** Compared by hand: a matcher over so many values takes seconds. */
function firstDifference(a: ArrayLike<unknown>, b: ArrayLike<unknown>): number {
  for (let i = 0; i < b.length; i += 1) if (!Object.is(a[i], b[i])) return i;
  return -1;
}
