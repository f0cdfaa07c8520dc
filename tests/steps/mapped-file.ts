import { join } from 'node:path';
import { ingest } from '../../src/steps/ingest.ts';
import { inStore, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';
import { expect } from 'vitest';

type Rows = Record<string, unknown>[];

/** Takes one foreign file through a map and gives what became of it. */
export async function mapped(map: object, content: string, name = 'J-7.csv') {
  const folder = writeFiles(tempFolder(), { 'map.json': JSON.stringify({ name: 'test', ...map }), [name]: content });
  return inStore(join(folder, 'store'), async (store) => {
    const { sources } = await ingest(store, [join(folder, name)], { map: join(folder, 'map.json') });
    expect(await unbalanced(store)).toEqual([]);
    const shown = async (table: string): Promise<Rows> =>
      (await store.rows(`FROM ${table}`)).map((row) =>
        Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)),
      );
    return { sources, readings: await shown('readings'), jobs: await shown('jobs'), rejects: await shown('rejects') };
  });
}
