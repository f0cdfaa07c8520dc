import { mkdirSync, rmSync } from 'node:fs';
import { getCompileCacheDir } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import type { Policy } from '../../checks/policy.ts';
import { spillName } from '../../store/spill-folder.ts';
import type { Store } from '../../store/store.ts';
import { jobsOf, type PlacelessTask } from './part-tasks.ts';
import { PartThreads } from './part-threads.ts';

/** Fewer jobs than this are judged sooner here than other threads have begun. */
const fewJobs = 100;

let made = 0;

/**
 * Judges tasks on other threads, some ahead, and hands out the folders of their parts in the order of the tasks; each is removed
 * once the next is asked for.
 */
export async function* judgedParts(
  store: Store,
  policy: Policy,
  tasks: AsyncIterable<PlacelessTask>,
  jobs: number,
): AsyncGenerator<{ folder: string; jobs: number }> {
  made += 1;
  const root = resolve(store.folder, spillName, `judged-${made}`);
  const threads = new PartThreads({ policy, compileCache: compileCacheFolder() }, jobs < fewJobs ? 0 : undefined);
  const underWay: { folder: string; jobs: number; written: Promise<void> }[] = [];
  async function* next() {
    const first = underWay.shift();
    if (first === undefined) return;
    await first.written;
    yield first;
    rmSync(first.folder, { recursive: true });
  }
  try {
    let number = 0;
    for await (const task of tasks) {
      number += 1;
      const folder = join(root, String(number));
      mkdirSync(folder, { recursive: true });
      const written = threads.make({ ...task, folder });
      // A failure is heard where the part is awaited.
      written.catch(() => undefined);
      underWay.push({ folder, jobs: jobsOf(task), written });
      if (underWay.length > threads.ahead) yield* next();
    }
    while (underWay.length > 0) yield* next();
  } finally {
    try {
      await threads.end();
    } finally {
      rmSync(root, { recursive: true, force: true });
    }
  }
}

/** Where this process keeps what was compiled once; below it each version of Node has a folder of its own. */
function compileCacheFolder(): string | undefined {
  const own = getCompileCacheDir();
  return own === undefined ? undefined : dirname(own);
}
