import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ColumnStage } from '../../src/store/column-stage.ts';
import { JudgedPart } from '../../src/store/judged-part.ts';
import { SegmentReader } from '../../src/store/segment-reader.ts';
import { parquetFiles } from '../../src/store/sql.ts';
import type { Finding } from '../../src/records/tables/findings.ts';
import { inStore, tempFolder } from './temp-store.ts';

/** As many as `part-tasks.ts` puts into a part, and the jobs of its last slice. */
const mostJobs = 1500;

test('a part of as many jobs as there can be, each with many long findings, fits the engine of a thread', async () => {
  const reader = await SegmentReader.begin();
  const folder = join(tempFolder(), 'part');
  mkdirSync(folder);
  const part = await JudgedPart.begin(await reader.connect());
  for (let job = 0; job < mostJobs; job += 1) {
    const job_id = `job-${job}`;
    const findings = Array.from(
      { length: 33 },
      (_, check): Finding => ({
        job_id,
        check_id: `check-${check}`,
        outcome: 'pass',
        message_id: `message-${(job + check) % 50}`,
        value: job / 7,
        evidence: JSON.stringify({ rise_pa: job / 3, isolation_s: 600 + check, says: 'x'.repeat(100) }),
        policy_id: 'as-recorded',
      }),
    );
    part.add({ facts: { job_id, pulls: job % 4, deepest_pa: job / 9 }, findings, prints: [] });
  }
  await part.write(folder);
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const counted = await store.rows(
      `SELECT count(*) AS findings, count(DISTINCT job_id) AS jobs, sum(value) AS sum FROM ${parquetFiles(join(folder, 'findings.parquet'))}`,
    );
    const sum = (33 * (mostJobs * (mostJobs - 1))) / 2 / 7;
    expect(counted).toEqual([{ findings: 33 * mostJobs, jobs: mostJobs, sum: expect.closeTo(sum, 3) }]);
  });
});

test('rows of every kind come back as they were, none as none, and what was cleared does not come back', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const stage = await ColumnStage.begin(store.connection, 'kinds', [
      { name: 'count', kind: 'number', sqlType: 'BIGINT' },
      { name: 'flag', kind: 'number', sqlType: 'BOOLEAN' },
      { name: "it's", kind: 'word', sqlType: 'VARCHAR' },
      { name: 'text', kind: 'text', sqlType: 'VARCHAR' },
    ]);
    for (let row = 0; row < 5000; row += 1) stage.append({ count: row, text: 'old' });
    await stage.clear();
    const rows = [
      { count: 3, flag: true, "it's": "o'clock", text: 'a\nb' },
      { count: 0, flag: false, "it's": "o'clock", text: '' },
      { count: null, flag: null, "it's": null, text: null },
      { count: -1, flag: true, "it's": 'other', text: 'ü' },
    ];
    for (const row of rows) stage.append(row);
    expect(await store.rows(stage.end())).toEqual(rows);
    expect(() => {
      for (let row = 0; row < 2048; row += 1) stage.append({});
    }).toThrow(/after its end/);
  });
});
