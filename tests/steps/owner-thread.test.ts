import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { accountsReport } from '../../src/steps/accounts-report.ts';
import { dueReport } from '../../src/steps/due-report.ts';
import { leaksReport } from '../../src/steps/leaks-report.ts';
import { OwnerThread, ownerPlace } from '../../src/steps/owner-thread.ts';
import { Store } from '../../src/store/store.ts';
import { simulatedStore } from './simulated-store.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-owner-thread-'));
const options = { units: 'ip', codes: true } as const;
let path: string;

beforeAll(async () => {
  const store = await simulatedStore(folder, { jobs: 200, seed: 8, intervalS: 60 });
  path = store.folder;
  await store.close();
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true }));

async function reading<Result>(work: (store: Store) => Promise<Result>): Promise<Result> {
  const store = await Store.open(path, 'read');
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

test('on either thread the page says what the three commands say', async () => {
  await reading(async (store) => {
    const threads = (['apart', 'here'] as const).map((place) => new OwnerThread(store, options, place));
    const [apart, here] = await Promise.all(threads.map((thread) => thread.data()));
    await Promise.all(threads.map((thread) => thread.close()));
    const accounts = await accountsReport(store, { codes: true, vintage: 'us', by: [] });
    const { cells, ...figures } = here;
    expect(figures).toEqual({
      accounts,
      leaks: await leaksReport(store, { vintage: 'us', method: 'annualising' }),
      due: await dueReport(store, {
        method: 'annualising',
        on: accounts.lastDay,
        withinDays: 90,
        calibrationMonths: 12,
      }),
    });
    expect(here.leaks.appliances).toBeGreaterThan(0);
    expect(here.due.open.length).toBeGreaterThan(0);
    expect(apart).toEqual(here);
    // What the charts add up is what the tables say.
    for (const flow of ['boughtKg', 'chargedKg', 'recoveredKg', 'unexplainedKg'] as const)
      expect(cells.rows.reduce((sum, row) => sum + row[flow], 0)).toBeCloseTo(accounts.total[flow] ?? 0, 2);
  });
});

test('a store that cannot be opened there is told of as anywhere', async () => {
  const nowhere = join(folder, 'nowhere');
  const thread = new OwnerThread({ folder: nowhere } as Store, options, 'apart');
  await expect(thread.data()).rejects.toMatchObject({
    name: 'DryholdError',
    code: 'store-missing',
    parameters: { path: nowhere },
  });
  await thread.close();
});

test('ended before it is done, it lets go, and this thread reads on', async () => {
  await reading(async (store) => {
    const thread = new OwnerThread(store, options, 'apart');
    await thread.close();
    const [answer] = await Promise.allSettled([thread.data()]);
    if (answer.status === 'rejected') expect(answer.reason).toBeInstanceOf(Error);
    else expect(answer.value.accounts.weighings).toBeGreaterThan(0);
    expect(await store.rows('SELECT count(*) AS n FROM jobs')).toEqual([{ n: 200 }]);
  });
});

test.runIf(process.platform === 'linux')('the store stays locked as long as the thread is not closed', async () => {
  const inode = statSync(join(path, 'catalogue.duckdb')).ino;
  const locks = (): string[] =>
    readFileSync('/proc/locks', 'utf8')
      .split('\n')
      .filter((line) => line.includes(`:${inode} `));
  await reading(async (store) => {
    const thread = new OwnerThread(store, options, 'apart');
    await thread.data();
    expect(locks()).toHaveLength(1);
    await thread.close();
  });
});

test('small stores, and one that is open to change it, are worked out here', async () => {
  expect(await reading(ownerPlace)).toBe('here');
  const store = await Store.open(path, 'write');
  expect(await ownerPlace(store)).toBe('here');
  await store.close();
});
