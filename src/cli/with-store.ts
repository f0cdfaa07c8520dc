import { setTimeout as delay } from 'node:timers/promises';
import { DryholdError } from '../errors.ts';
import type { Store, StoreMode } from '../store/store.ts';
import { type CommonOptions, remark } from './context.ts';
import { waitTimeS } from './wait-option.ts';

/** How often a store that is in use is tried again [ms]. */
const againMs = 500;

/**
 * Opens a store, works on it, and closes it whatever happens. One that somebody else uses is waited for as long as `--wait`
 * says. The engine loads only now, so that help comes at once.
 *
 * @throws DryholdError `store-busy` where it is still in use then
 */
export async function withStore<Result>(
  options: Pick<CommonOptions, 'store' | 'wait' | 'quiet'>,
  mode: StoreMode,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  const store = await opened(options, mode);
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

async function opened(
  { store: folder, wait, quiet = false }: Pick<CommonOptions, 'store' | 'wait' | 'quiet'>,
  mode: StoreMode,
): Promise<Store> {
  const { Store } = await import('../store/store.ts');
  const untilMs = performance.now() + 1000 * waitTimeS(wait);
  let isTold = quiet;
  for (;;) {
    try {
      return await Store.open(folder, mode);
    } catch (error) {
      const isBusy = error instanceof DryholdError && error.code === 'store-busy';
      if (!isBusy || performance.now() >= untilMs) throw error;
      if (!isTold) remark(`${error.message.split(';')[0]}; waiting for up to ${wait}`);
      isTold = true;
      await delay(Math.min(againMs, Math.max(0, untilMs - performance.now())));
    }
  }
}
