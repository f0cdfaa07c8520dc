import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { ingest } from '../src/steps/ingest.ts';
import { judge } from '../src/steps/judge.ts';
import { Store } from '../src/store/store.ts';

const root = fileURLToPath(new URL('../sample-data/', import.meta.url));
const samples = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name);

/** What a sample says must come of it. */
interface Expected {
  deliveries: { path: string; map?: string }[];
  sources: { rows_read: number; rows_kept: number; rows_rejected: number; rows_repeated: number }[];
  rejects: { file: string; line: number; table_name: string; reason_id: string; says: string }[];
  facts: Record<string, Record<string, number>>;
  outcomes: Record<string, Record<string, string>>;
}

test('there is a sample of every kind of file, and one with a map', () => {
  expect(samples).toEqual(
    expect.arrayContaining(['bundle-arrow', 'bundle-csv', 'bundle-ndjson', 'bundle-parquet', 'mapped-logs']),
  );
  for (const sample of samples) expect(existsSync(join(root, sample, 'expected.json'))).toBe(true);
});

test.each(samples)('%s gives what it says it must give', async (sample) => {
  const expected = JSON.parse(readFileSync(join(root, sample, 'expected.json'), 'utf8')) as Expected;
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-sample-'));
  const store = await Store.open(folder, 'write');
  try {
    for (const { path, map } of expected.deliveries)
      await ingest(store, [join(root, sample, path)], map === undefined ? {} : { map: join(root, sample, map) });
    await judge(store);

    expect(
      await store.rows(
        'SELECT file, table_name, rows_read, rows_kept, rows_rejected, rows_repeated FROM sources ORDER BY file',
      ),
    ).toEqual(expected.sources);
    for (const { rows_read, rows_kept, rows_rejected, rows_repeated } of expected.sources)
      expect(rows_kept + rows_rejected + rows_repeated).toBe(rows_read);

    const rejects = await store.rows<{ detail: string }>(
      'SELECT file, line, table_name, reason_id, detail FROM rejects ORDER BY file, line',
    );
    expect(rejects).toHaveLength(expected.rejects.length);
    for (const [place, { says, ...reject }] of expected.rejects.entries()) {
      expect(rejects[place]).toMatchObject(reject);
      expect(rejects[place]?.detail).toContain(says);
    }

    for (const [jobId, facts] of Object.entries(expected.facts)) {
      const [found] = await store.rows<Record<string, number>>('SELECT * FROM facts WHERE job_id = $1', [jobId]);
      for (const [name, value] of Object.entries(facts)) expect(found?.[name]).toBeCloseTo(value, 9);
    }
    for (const [jobId, outcomes] of Object.entries(expected.outcomes)) {
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
