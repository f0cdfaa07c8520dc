import { statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { filesBelow } from './files-below.ts';

/** What is watched, and how. */
export interface WatchOptions {
  /** How often the folders are looked at [ms]. */
  readonly everyMs?: number;
  /** A file that kept its size and its time for so long is taken to be whole [ms]. */
  readonly quietMs?: number;
  /** Called at each look that finds no whole file; the next look waits for it. */
  readonly onIdle?: () => Promise<void>;
  /** Ends the watch. */
  readonly signal: AbortSignal;
}

/** Names under which programs write what is not whole yet. */
const unfinished = /(^|[\\/])[.~]|\.(part|partial|tmp|temp|crdownload|filepart|swp)$|~$/i;

/**
 * Tells of files that came into folders, or changed, once each is whole: it kept its size and its time of change for some
 * seconds, is not empty and is not called as unfinished files are. Folders are looked at again and again rather than
 * listened to, which works on network drives too.
 *
 * @param handle takes the files that are whole now and says whether it did; else they are told again. The next look waits
 *   for it.
 */
export async function watchFolders(
  folders: readonly string[],
  handle: (paths: string[]) => Promise<boolean>,
  { everyMs = 2000, quietMs = 2000, onIdle, signal }: WatchOptions,
): Promise<void> {
  const look = new Look(folders, quietMs);
  while (!signal.aborted) {
    const { whole } = look.again();
    if (whole.length === 0) await onIdle?.();
    else if (!(await handle(whole.sort()))) look.forget(whole);
    await delay(everyMs, undefined, { signal }).catch(() => undefined);
  }
}

/**
 * The files at paths that are whole now, as a watch would tell it, and those that are not yet.
 *
 * @param paths folders and files
 */
export async function wholeFiles(
  paths: readonly string[],
  quietMs = 2000,
): Promise<{ whole: string[]; unfinished: string[] }> {
  const look = new Look(paths, quietMs);
  look.again();
  // A timer may come early by a part of a millisecond.
  await delay(quietMs + 10);
  return look.again();
}

/** What was seen at paths, look by look. */
class Look {
  readonly #paths: readonly string[];
  readonly #quietMs: number;
  readonly #seen = new Map<string, { state: string; sinceMs: number; told: boolean }>();

  constructor(paths: readonly string[], quietMs: number) {
    this.#paths = paths;
    this.#quietMs = quietMs;
  }

  /** Files that are whole now and were not told before, and those that are not whole. */
  again(): { whole: string[]; unfinished: string[] } {
    const now = performance.now();
    const whole: string[] = [];
    const unfinished: string[] = [];
    const there = new Set<string>();
    for (const path of this.#paths.flatMap(filesAt)) {
      const found = statSync(path, { throwIfNoEntry: false });
      if (found === undefined) continue;
      there.add(path);
      const state = `${found.size} ${found.mtimeMs} ${found.ino}`;
      const known = this.#seen.get(path);
      const isStill = known?.state === state && now - known.sinceMs >= this.#quietMs;
      if (known?.state !== state) this.#seen.set(path, { state, sinceMs: now, told: false });
      if (!isStill || found.size === 0) unfinished.push(path);
      else if (!known.told) {
        known.told = true;
        whole.push(path);
      }
    }
    for (const path of this.#seen.keys()) if (!there.has(path)) this.#seen.delete(path);
    return { whole, unfinished };
  }

  /** Files that are to be told again, as soon as they have kept still once more. */
  forget(paths: readonly string[]): void {
    for (const path of paths) this.#seen.set(path, { state: '', sinceMs: performance.now(), told: false });
  }
}

/** The files below a folder, but for those called as unfinished ones; or the file itself. */
function filesAt(folder: string): string[] {
  try {
    if (statSync(folder).isFile()) return [folder];
    return filesBelow(folder)
      .map(({ name }) => join(folder, name))
      .filter((path) => !unfinished.test(path.slice(folder.length)));
  } catch {
    // A folder below went while it was looked at, or the drive is away for the moment.
    return [];
  }
}
