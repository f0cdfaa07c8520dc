import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { Delivery } from '../../src/store/delivery.ts';
import { breakdownOn, isAfterBreakdown, isBreakdown } from '../../src/store/engine-breakdown.ts';
import { csvRelation } from '../../src/store/reading-relation.ts';
import { Store } from '../../src/store/store.ts';
import { tempFolder } from './temp-store.ts';

// The engine (1.5.6) breaks down at a byte that is no UTF-8 in a column behind those that are read. Digests keep such files from it;
// here it is given one all the same. Once the engine says what is wrong instead, this wants another of its faults.
test('an engine that broke down is told by the file, does nothing more, and leaves the store as it was', async () => {
  const folder = tempFolder();
  const path = join(folder, 'log.csv');
  writeFileSync(path, Buffer.from('job_id,elapsed_s,ours,phase_mark\nj,0,1,pull-down\nj,10,2,h\xe4lt\n', 'latin1'));
  const store = await Store.open(join(folder, 'store'), 'write');
  const delivery = new Delivery(store);
  const relation = csvRelation(path, ['job_id', 'elapsed_s', 'ours', 'phase_mark']);
  const error: unknown = await delivery
    .stageReadings(0, `SELECT job_id, phase_mark FROM ${relation}`, ['job_id', 'phase_mark'])
    .catch((thrown: unknown) => thrown);
  expect(isBreakdown(error)).toBe(true);
  expect(breakdownOn(path, error)).toMatchObject({ code: 'engine-broken', exitStatus: 3, parameters: { path } });
  const after: unknown = await store.run('SELECT 1').catch((thrown: unknown) => thrown);
  expect(isAfterBreakdown(after)).toBe(true);
  expect(breakdownOn(path, after)).toBe(after);
  await expect(store.holdInMemory('usual')).resolves.toBeUndefined();
  await store.close();
  const again = await Store.open(join(folder, 'store'), 'read');
  expect(await again.rows('SELECT count(*)::INTEGER AS n FROM readings')).toEqual([{ n: 0 }]);
  await again.close();
});
