import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { ingest } from '../src/steps/ingest.ts';
import { tableNamed } from '../src/records/tables.ts';
import { judge } from '../src/steps/judge.ts';
import { Store } from '../src/store/store.ts';

const root = fileURLToPath(new URL('../sample-data/', import.meta.url));
const samples = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name);

/** What a sample says must come of it. */
interface Expected {
  deliveries: { path: string; map?: string | string[] }[];
  sources: { rows_read: number; rows_kept: number; rows_rejected: number; rows_repeated: number }[];
  rejects: { file: string; line: number; table_name: string; reason_id: string; says: string }[];
  /** Every row of a table, by table, in the order of its key; cells that are not known are left out. */
  rows?: Record<string, Record<string, string | number | boolean>[]>;
  facts?: Record<string, Record<string, number>>;
  outcomes?: Record<string, Record<string, string>>;
}

test('there is a sample of every kind of file, each with what must come of it', () => {
  expect(samples).toEqual([
    'brass-lantern',
    'bundle-arrow',
    'bundle-csv',
    'bundle-ndjson',
    'bundle-parquet',
    'charges',
    'glass-hedge',
    'mapped-logs',
    'night-kettle',
    'oak-ledger',
    'packed-meadow',
    'paper-comet',
    'plum-gazette',
    'pressure-tests',
    'slate-otter',
    'stone-parcel',
    'three-drawers',
    'tin-sparrow',
    'two-tongues',
    'velvet-anvil',
  ]);
  for (const sample of samples) expect(existsSync(join(root, sample, 'expected.json'))).toBe(true);
});

test('the maps of the samples use every word of the schema, every way to write times, and refuse a row each', () => {
  const known = new Set<string>();
  collect(JSON.parse(readFileSync(new URL('../source-map.schema.json', import.meta.url), 'utf8')), (key, value) => {
    if (key === 'properties') for (const name of Object.keys(value as object)) known.add(name);
    if (key === 'enum' && (value as unknown[]).includes('clock')) for (const word of value as string[]) known.add(word);
  });
  const used = new Set<string>();
  for (const sample of samples) {
    const maps = readdirSync(join(root, sample)).filter((name) => name.endsWith('.json') && name !== 'expected.json');
    for (const map of maps)
      collect(JSON.parse(readFileSync(join(root, sample, map), 'utf8')), (key, value) => {
        used.add(key);
        if (key === 'time' && typeof value === 'string') used.add(value);
      });
    if (maps.length === 0) continue;
    const { rejects } = JSON.parse(readFileSync(join(root, sample, 'expected.json'), 'utf8')) as Expected;
    expect({ sample, rejects }).not.toEqual({ sample, rejects: [] });
  }
  expect([...known].filter((word) => !used.has(word))).toEqual([]);
});

test.each(samples)('%s gives what it says it must give', async (sample) => {
  const expected = JSON.parse(readFileSync(join(root, sample, 'expected.json'), 'utf8')) as Expected;
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-sample-'));
  const store = await Store.open(folder, 'write');
  try {
    for (const { path, map } of expected.deliveries)
      await ingest(store, [join(root, sample, path)], {
        map: [map ?? []].flat().map((each) => join(root, sample, each)),
      });
    await judge(store);

    expect(
      await store.rows(
        'SELECT file, table_name, rows_read, rows_kept, rows_rejected, rows_repeated FROM sources ORDER BY file, table_name',
      ),
    ).toEqual(expected.sources);
    for (const { rows_read, rows_kept, rows_rejected, rows_repeated } of expected.sources)
      expect(rows_kept + rows_rejected + rows_repeated).toBe(rows_read);

    const rejects = await store.rows<{ detail: string }>(
      'SELECT file, line, table_name, reason_id, detail FROM rejects ORDER BY file, line, table_name',
    );
    expect(rejects).toHaveLength(expected.rejects.length);
    for (const [place, { says, ...reject }] of expected.rejects.entries()) {
      expect(rejects[place]).toMatchObject(reject);
      expect(rejects[place]?.detail).toContain(says);
    }

    for (const [table, rows] of Object.entries(expected.rows ?? {})) {
      const found = await store.rows(`FROM ${table} ORDER BY ${tableNamed(table)?.key.join(', ')}`);
      expect(found.map(known)).toEqual(rows.map(nearly));
    }

    for (const [jobId, facts] of Object.entries(expected.facts ?? {})) {
      const [found] = await store.rows<Record<string, number>>('SELECT * FROM facts WHERE job_id = $1', [jobId]);
      for (const [name, value] of Object.entries(facts)) expect(found?.[name]).toBeCloseTo(value, 9);
    }
    for (const [jobId, outcomes] of Object.entries(expected.outcomes ?? {})) {
      const found = await store.rows<{ check_id: string; outcome: string }>(
        'SELECT check_id, outcome FROM findings WHERE job_id = $1',
        [jobId],
      );
      const told = Object.fromEntries(found.map((row) => [row.check_id, row.outcome]));
      expect({ jobId, ...told }).toMatchObject({ jobId, ...outcomes });
    }
  } finally {
    await store.close();
    rmSync(folder, { recursive: true });
  }
});

/** A row without what is not known. */
function known(row: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null));
}

/** A row as it must come out: numbers to nine digits, `over` as the store keeps it. */
function nearly(row: Record<string, unknown>): Record<string, unknown> {
  const cell = (value: unknown): unknown => {
    if (value === 'over') return Number.POSITIVE_INFINITY;
    if (typeof value !== 'number' || value === 0) return value;
    return expect.closeTo(value, 8 - Math.floor(Math.log10(Math.abs(value))));
  };
  return Object.fromEntries(Object.entries(row).map(([name, value]) => [name, cell(value)]));
}

/** Hears of every member of a JSON value, however deep. */
function collect(value: unknown, hear: (key: string, value: unknown) => void): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, member] of Object.entries(value)) {
    hear(key, member);
    collect(member, hear);
  }
}
