import { readPolicy } from '../../src/checks/policy.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';

/** A command that changes a store: its arguments, without `--store`, and the same work within this process, which is quicker. */
export interface StoreCommand {
  readonly name: string;
  readonly args: readonly string[];
  /** Whether all of it becomes known at once: a single delivery, or a judging. */
  readonly isAtOnce: boolean;
  /** What is started to be killed, where it goes on until it is, and how long it waits before it begins [ms]. */
  readonly endless?: { readonly args: readonly string[]; readonly waitsMs: number };
  readonly inProcess: (folder: string) => Promise<void>;
}

export function ingestCommand(name: string, paths: readonly string[], maps: readonly string[] = []): StoreCommand {
  return {
    name,
    args: ['ingest', ...paths, ...(maps.length > 0 ? ['--map', ...maps] : [])],
    isAtOnce: paths.length === 1 && maps.length === 0,
    inProcess: (folder) => inStore(folder, (store) => ingest(store, paths, { map: maps })),
  };
}

/** Watches a folder until it is killed; then what lies in it is taken in by a run that ends. */
export function watchCommand(name: string, folder: string, maps: readonly string[]): StoreCommand {
  const command = ingestCommand(name, [folder], maps);
  return { ...command, endless: { args: [...command.args, '--watch'], waitsMs: 3000 } };
}

/** Looks into a store, which takes an older one forward. */
export function lookCommand(name: string): StoreCommand {
  return {
    name,
    args: ['query', 'select 1'],
    isAtOnce: true,
    inProcess: async (folder) => (await Store.open(folder, 'read')).close(),
  };
}

export function judgeCommand(name: string, policy?: string): StoreCommand {
  return {
    name,
    isAtOnce: true,
    args: ['judge', ...(policy === undefined ? [] : ['--policy', policy])],
    inProcess: (folder) =>
      inStore(folder, (store) => judge(store, policy === undefined ? {} : { policy: readPolicy(policy) })),
  };
}

async function inStore(folder: string, work: (store: Store) => Promise<unknown>): Promise<void> {
  const store = await Store.open(folder, 'write');
  try {
    await work(store);
  } finally {
    await store.close();
  }
}
