import { setTimeout } from 'node:timers/promises';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { judge } from '../../src/steps/judge.ts';
import { ingestFiles, inStore, tempFolder } from '../store/temp-store.ts';

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

test('a judging that fails leaves nothing behind, not even when what it held is collected', async () => {
  await inStore(tempFolder(), async (store) => {
    await ingestFiles(store, { 'readings.csv': 'job_id,elapsed_s,vacuum_pa\na,0,100\nb,0,90\n' });
    const onProgress = () => {
      throw new Error('after the last job');
    };
    await expect(judge(store, { onProgress })).rejects.toThrow('after the last job');
    for (let time = 0; time < 5; time += 1) {
      collectGarbage();
      await setTimeout(10);
    }
    expect(await store.rows('SELECT (SELECT count(*) FROM facts) + (SELECT count(*) FROM findings) AS n')).toEqual([
      { n: 0 },
    ]);
    expect(await judge(store)).toMatchObject({ judged: 2 });
  });
});
