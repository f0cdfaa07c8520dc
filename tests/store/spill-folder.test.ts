import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, expect, test } from 'vitest';
import { Store } from '../../src/store/store.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-spill-'));

afterAll(() => rmSync(folder, { recursive: true }));

const spills = (): string[] => readdirSync(folder).filter((name) => name.startsWith('spill'));

/** Has the engine hold more than it may; the sum is of what it reads back. */
async function spilledSum(store: Store): Promise<number> {
  await store.run("SET memory_limit = '50MB'");
  await store.run('CREATE TEMP TABLE big AS SELECT i, md5(i::VARCHAR) AS text FROM range(1500000) r(i)');
  const [{ sum }] = await store.rows<{ sum: number }>(
    'SELECT sum(i)::DOUBLE AS sum FROM temp.big WHERE text = md5(i::VARCHAR)',
  );
  return sum;
}

test('readers of one store at once each spill into a folder of their own, which goes with them', async () => {
  await (await Store.open(folder, 'write')).close();
  const store = await Store.open(folder, 'read');
  const [{ place }] = await store.rows<{ place: string }>("SELECT current_setting('temp_directory') AS place");
  const code = `import { parentPort, workerData } from 'node:worker_threads';
    const { Store } = await import(workerData.store);
    const store = await Store.open(workerData.folder, 'read');
    const [{ place }] = await store.rows("SELECT current_setting('temp_directory') AS place");
    await store.close();
    parentPort.postMessage(place);`;
  const worker = new Worker(new URL(`data:text/javascript,${encodeURIComponent(code)}`), {
    workerData: { folder, store: new URL('../../src/store/store.ts', import.meta.url).href },
  });
  const other = await new Promise((resolve, reject) => worker.once('message', resolve).once('error', reject));
  expect(other).not.toBe(place);
  expect(await spilledSum(store)).toBe((1_500_000 * 1_499_999) / 2);
  expect(spills()).toHaveLength(1);
  expect(readdirSync(place).length).toBeGreaterThan(0);
  await store.close();
  expect(spills()).toEqual([]);
});

test('what a reader that was killed left behind goes when the store is next opened to change it', async () => {
  const left = join(folder, 'spill-4711-0');
  mkdirSync(left);
  writeFileSync(join(left, 'duckdb_temp_storage_DEFAULT-0.tmp'), '');
  mkdirSync(join(folder, 'spill-of-mine'));
  await (await Store.open(folder, 'write')).close();
  expect([existsSync(left), existsSync(join(folder, 'spill-of-mine'))]).toEqual([false, true]);
});
