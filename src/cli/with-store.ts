import { Store, type StoreMode } from '../store/store.ts';

/** Opens a store, works on it, and closes it whatever happens. */
export async function withStore<Result>(
  folder: string,
  mode: StoreMode,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  const store = await Store.open(folder, mode);
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}
