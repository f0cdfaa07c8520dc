import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';

/** What is watched, and how. */
export interface WatchOptions {
  /** How often the folders are looked at [ms]. */
  readonly everyMs?: number;
  /** A file that kept its size and its time for so long is taken to be whole [ms]. */
  readonly quietMs?: number;
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
  { everyMs = 2000, quietMs = 2000, signal }: WatchOptions,
): Promise<void> {
  const seen = new Map<string, { state: string; sinceMs: number; told: boolean }>();
  while (!signal.aborted) {
    const now = performance.now();
    const whole: string[] = [];
    const there = new Set<string>();
    for (const path of folders.flatMap(filesBelow)) {
      const found = statSync(path, { throwIfNoEntry: false });
      if (found === undefined) continue;
      there.add(path);
      const state = `${found.size} ${found.mtimeMs} ${found.ino}`;
      const known = seen.get(path);
      if (known === undefined || known.state !== state) seen.set(path, { state, sinceMs: now, told: false });
      else if (!known.told && found.size > 0 && now - known.sinceMs >= quietMs) {
        known.told = true;
        whole.push(path);
      }
    }
    for (const path of seen.keys()) if (!there.has(path)) seen.delete(path);
    if (whole.length > 0 && !(await handle(whole.sort())))
      for (const path of whole) seen.set(path, { state: '', sinceMs: now, told: false });
    await delay(everyMs, undefined, { signal }).catch(() => undefined);
  }
}

function filesBelow(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .filter((path) => !unfinished.test(path.slice(folder.length)));
  } catch {
    // A folder below went while it was looked at, or the drive is away for the moment.
    return [];
  }
}
