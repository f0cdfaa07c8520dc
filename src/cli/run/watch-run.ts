import { mkdirSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import { DryholdError } from '../../errors.ts';
import { watchFolders, type WatchOptions } from '../../steps/watch-folder.ts';
import { exitStatus } from '../context.ts';
import { countOf } from '../ingest-text.ts';
import type { DeclaredRun } from './declared-run.ts';
import { type RoundResult, runRound } from './run-round.ts';
import type { RunLog } from './run-log.ts';

/** Of files that came so many are named. */
const mostNamed = 10;
/** Where the paths of what came are longer in all, all that lies in the folders is taken in: on Windows a command line ends at 32,767 characters. */
const mostCameLength = 20_000;
/** What stands around each path on it: the option's name, quotes and a space. */
const aroundPath = '"--only=" '.length;
/** A round of which a step broke off is tried again after so long, where no file comes before, and then after twice as long each time [ms]. */
const againMs = 3_600_000;
/** At the latest after so long it is tried again, and a watch that has nothing to say says that it is there [ms]. */
const dayMs = 86_400_000;

export interface WatchRunOptions extends Pick<WatchOptions, 'everyMs' | 'quietMs'> {
  readonly log: RunLog;
  /** The day that placeholders mean, ISO 8601, asked at each round. */
  readonly day: () => string;
  /** Ends the watch, by the signal that is its reason. */
  readonly stop: AbortSignal;
  readonly onRound: (result: RoundResult) => void;
}

/**
 * Carries a run out whenever files came into its folders, beginning with what lies there, until it is told to end.
 *
 * @returns the most serious status of its rounds
 * @throws DryholdError `file-not-found` where a folder is not there and is not the run's own to make, `bad-usage` where it is a file
 */
export async function watchRun(run: DeclaredRun, options: WatchRunOptions): Promise<number> {
  const { log, day, stop, onRound } = options;
  const folders = run.watch.map((name) => watchedFolder(run, name, log));
  log.note(`${run.name}: watching ${run.watch.join(', ')}; Ctrl+C ends it`);
  let worst: number = exitStatus.done;
  let rounds = 0;
  let retryAtMs = Number.POSITIVE_INFINITY;
  let retries = 0;
  // What lies there at first, and what a round that broke off has left.
  let isWhole = true;
  const round = async (paths: readonly string[] = []) => {
    const came = isWhole || !fitsCommandLine(paths) ? undefined : paths;
    const result = await runRound(run, { log, day: day(), came, stop });
    rounds += 1;
    const isBroken = result.status > exitStatus.refused;
    isWhole = isBroken;
    retryAtMs = isBroken ? Date.now() + Math.min(againMs * 2 ** retries, dayMs) : Number.POSITIVE_INFINITY;
    // What a round that was stopped had under way comes again with the next start.
    if (!stop.aborted) worst = Math.max(worst, result.status);
    onRound(result);
  };
  await watchFolders(
    folders,
    async (paths) => {
      log.note(`${run.name}: ${cameText(paths, run.folder)}`);
      retries = 0;
      await round(paths);
      return true;
    },
    {
      ...options,
      signal: stop,
      onIdle: async () => {
        if (Date.now() >= retryAtMs) {
          retries += 1;
          log.note(`${run.name}: no file came, but the last round broke off, and is tried again`);
          await round();
        } else if (Date.now() - log.lastMs >= dayMs) log.note(`${run.name}: still watching; nothing came`);
      },
    },
  );
  log.note(`${run.name}: ended by ${String(stop.reason)} after ${countOf(rounds, 'round')}, status ${worst}`);
  return worst;
}

/** A folder of the run's own is made; one elsewhere may be on a drive that is away, and must be there. */
function watchedFolder({ folder, path }: DeclaredRun, name: string, log: RunLog): string {
  const full = resolve(folder, name);
  const found = statSync(full, { throwIfNoEntry: false });
  if (found?.isDirectory()) return full;
  if (found !== undefined)
    throw new DryholdError('bad-usage', { problem: `${path}: "watch" wants folders, and ${name} is none` });
  const within = relative(folder, full);
  if (within.startsWith('..') || isAbsolute(within)) throw new DryholdError('file-not-found', { path: full });
  mkdirSync(full, { recursive: true });
  log.note(`${name}: made, since there was no such folder`);
  return full;
}

/** Whether the paths of what came can be told to a step. */
export function fitsCommandLine(paths: readonly string[]): boolean {
  return paths.reduce((sum, path) => sum + path.length + aroundPath, 0) <= mostCameLength;
}

function cameText(paths: readonly string[], folder: string): string {
  const named = paths.slice(0, mostNamed).map((path) => relative(folder, path));
  const more = paths.length > mostNamed ? `, and ${paths.length - mostNamed} more` : '';
  return `${countOf(paths.length, 'file')} came: ${named.join(', ')}${more}`;
}
