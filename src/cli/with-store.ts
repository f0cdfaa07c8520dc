import type { Store, StoreMode } from '../store/store.ts';

/** Opens a store, works on it, and closes it whatever happens. The engine loads only now, so that help comes at once. */
export async function withStore<Result>(
  folder: string,
  mode: StoreMode,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  const { Store } = await import('../store/store.ts');
  const store = await Store.open(folder, mode);
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}
