import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { sampleRoot } from '../samples.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

test('what was found is told of the jobs judged now alone, the most pressing first', async () => {
  await inStore(tempFolder(), async (store) => {
    const jobsWith = async (outcomes: string) => {
      const [{ n }] = await store.rows<{ n: number }>(
        `SELECT count(DISTINCT job_id) AS n FROM findings WHERE outcome IN (${outcomes})`,
      );
      return n;
    };
    await ingest(store, [join(sampleRoot, 'bundle-csv')]);
    const { now } = await judge(store);
    // By the table of the samples: W-103 is over the rise limit, W-102 is undercharged, W-101 passes all.
    expect([now.failed, now.flagged]).toEqual([2, 2]);
    expect(now.first.map(({ jobId, checkId, outcome }) => [jobId, checkId, outcome])).toEqual([
      ['W-103', 'rise-over-limit', 'fail'],
      ['W-102', 'charge-off-target', 'fail'],
    ]);
    expect(now.first[0]?.text('si')).toContain('28.7 Pa to 120 Pa');
    expect((await judge(store)).now).toEqual({ failed: 0, flagged: 0, first: [] });

    const before = [await jobsWith("'fail'"), await jobsWith("'fail', 'suspect'")];
    await ingest(store, [join(sampleRoot, 'pressure-tests'), join(sampleRoot, 'charges')]);
    const later = (await judge(store)).now;
    const after = [await jobsWith("'fail'"), await jobsWith("'fail', 'suspect'")];
    expect([later.failed, later.flagged]).toEqual(after.map((count, at) => count - before[at]));
    expect(later.first[0]).toMatchObject({ jobId: 'N-202', checkId: 'pressure-not-held', outcome: 'fail' });
    expect(later.first.map(({ jobId }) => jobId)).not.toContain('W-103');

    // Under another policy all of them are judged anew; five are named.
    const { now: anew } = await judge(store, { policy: { id: 'other', title: 'Other', version: 1, limits: {} } });
    expect(anew.flagged).toBe(after[1]);
    expect(anew.first).toHaveLength(5);
  });
});
