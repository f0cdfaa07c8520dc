import { existsSync, globSync } from 'node:fs';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import type { Command } from 'commander';
import { realPath } from '../../steps/real-path.ts';
import { outputs, type StepValues } from './declared-step.ts';
import { filledIn } from './placeholders.ts';
import { placeInRun } from './problem-of-run.ts';

/**
 * Whether all that paths and globs mean lies in watched folders: only then does a watch tell of each of its files.
 *
 * @param folder what the paths count from
 */
export function areWatched(paths: readonly string[], watch: readonly string[], folder: string): boolean {
  const watched = watch.map((name) => realPath(resolve(folder, name)));
  return paths
    .flatMap((path) => (existsSync(resolve(folder, path)) ? path : [path, ...globSync(path, { cwd: folder })]))
    .every((path) => watched.some((inner) => liesIn(realPath(resolve(folder, path)), inner)));
}

/** What a run writes, as far as it is looked at here. */
export interface WritingRun {
  /** What its paths count from. */
  readonly folder: string;
  readonly log?: string | undefined;
  readonly watch: readonly string[];
  readonly steps: readonly (StepValues & { readonly do: string })[];
  /** The options that hold where a step says nothing. */
  readonly usual: StepValues;
  readonly commands: ReadonlyMap<string, Command>;
}

/** The first place where a run writes what starts it again, or over its own log, and what is wrong there. */
export function problemOfOutputs(run: WritingRun, day: string): [where: string, problem: string] | undefined {
  const real = (path: string) => realPath(resolve(run.folder, filledIn(path, day)));
  const watched = run.watch.map((name) => ({ name, path: real(name) }));
  const log = run.log === undefined ? undefined : real(run.log);
  for (const { where, path } of writtenPaths(run)) {
    const full = real(path);
    const around = watched.find((inner) => liesIn(full, inner.path));
    if (around !== undefined)
      return [
        where,
        `${path} lies in the watched folder ${around.name}, and would start the run again and again; put it elsewhere`,
      ];
    if (where !== '"log"' && full === log) return [where, `${path} is the log of the run; name another file`];
  }
  return undefined;
}

function* writtenPaths({ log, steps, usual, commands }: WritingRun): Generator<{ where: string; path: string }> {
  if (log !== undefined) yield { where: '"log"', path: log };
  for (const [at, step] of steps.entries())
    for (const name of ['store', ...outputs, 'into']) {
      const option = commands.get(step.do)?.options.find((each) => each.name() === name);
      const path: unknown = step[name] ?? usual[name] ?? option?.defaultValue;
      const isOwn = name !== 'store' || name in step;
      if (typeof path === 'string') yield { where: isOwn ? placeInRun(['steps', at, name], steps) : '"store"', path };
    }
}

/** Whether a path is a folder or lies in it; both without links. */
function liesIn(path: string, folder: string): boolean {
  const within = relative(folder, path);
  return within !== '..' && !within.startsWith(`..${sep}`) && !isAbsolute(within);
}
