import { existsSync, statSync } from 'node:fs';
import { DryholdError } from '../errors.ts';
import type { IngestResult } from '../steps/ingest-result.ts';
import { realPath } from '../steps/real-path.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, type CommonOptions, exitStatus, Progress, remark, sayJson } from './context.ts';
import { countOf, grouped, tellIngest } from './ingest-text.ts';
import { endInOrder } from './interruption.ts';
import { withStore } from './with-store.ts';

interface IngestCommandOptions extends CommonOptions {
  readonly map?: string[];
  readonly watch?: boolean;
  readonly whole?: boolean;
  readonly only?: string[];
}

/** `dryhold ingest`: files, folders or globs into the store. */
export const addIngest: AddCommand = (program, settle) => {
  program
    .command('ingest')
    .summary('take files into the store')
    .description(
      'Takes bundles into the store, or with --map files of any other layout. What is in already is left alone; every row is accounted for.',
    )
    .argument('<path...>', 'files, folders or globs')
    .option(
      '--map <file...>',
      'source maps that say how the files feed our tables; of several the one that a file looks like',
    )
    .option(
      '--whole',
      'leave alone what is still being copied: look twice, two seconds apart, and take what kept still',
    )
    .option('--only <file...>', 'of what lies in the folders only these files')
    .option('--watch', 'go on: take in whatever comes into the folders, once it is copied whole; ends with Ctrl+C')
    .addHelpText(
      'after',
      `
examples:
  dryhold ingest exports/2026-06/
  dryhold ingest "logs/*.csv" --map their-logs.json
  dryhold ingest drop/ --map vacuum.json scale.json
  dryhold ingest drop/ --map vacuum.json scale.json --watch
  dryhold rejects                           what was refused, and why`,
    )
    .action(async (paths: string[], options: IngestCommandOptions) => {
      checkOnly(options);
      if (options.watch) return settle(await watch(paths, options));
      const result = await takeIn(paths, options, await askedOnly(paths, options));
      if (options.json) sayJson(result);
      else tellIngest(result, options);
      const status = ingestStatus(result);
      // A broken file among those that came to a folder is one refused file of many.
      settle(options.only === undefined ? status : Math.min(status, exitStatus.refused));
    });
};

/** Files that are not there would be none of those that are taken in, and nobody would be told. */
function checkOnly({ only, watch = false }: IngestCommandOptions): void {
  if (only === undefined) return;
  if (watch) throw new DryholdError('bad-usage', { problem: '--watch takes whatever comes: leave --only out' });
  const missing = only.find((path) => !existsSync(path));
  if (missing !== undefined) throw new DryholdError('file-not-found', { path: missing });
}

async function takeIn(
  paths: readonly string[],
  options: IngestCommandOptions,
  only?: ReadonlySet<string>,
): Promise<IngestResult> {
  const { ingest } = await import('../steps/ingest.ts');
  const progress = new Progress('reading', options);
  return withStore(options, 'write', (store) =>
    ingest(store, paths, {
      ...(options.map === undefined ? {} : { map: options.map }),
      ...(only === undefined ? {} : { only }),
      onProgress: ({ bytesRead, bytes, file, rows }) =>
        progress.update(bytesRead, bytes, rows === 0 ? file : `${file}, ${grouped(rows)} rows`),
    }),
  ).finally(() => progress.stop());
}

/** Which files are to be taken in; all where none is told apart. */
async function askedOnly(
  paths: readonly string[],
  options: IngestCommandOptions,
): Promise<ReadonlySet<string> | undefined> {
  const only = options.only && new Set(options.only.map(realPath));
  if (options.whole !== true) return only;
  const whole = [...(await wholeOnly(paths, options))].map(realPath);
  return new Set(whole.filter((path) => only?.has(path) ?? true));
}

/** What is whole of what lies at the paths; the rest is told, and left for the next time. */
async function wholeOnly(paths: readonly string[], { quiet = false }: IngestCommandOptions): Promise<Set<string>> {
  const [{ namedPaths }, { wholeFiles }] = await Promise.all([
    import('../steps/find-inputs.ts'),
    import('../steps/watch-folder.ts'),
  ]);
  const { whole, unfinished } = await wholeFiles(namedPaths(paths).map(({ path }) => path));
  if (unfinished.length > 0 && !quiet)
    remark(
      visibleText(
        `${countOf(unfinished.length, 'file')} left for later, empty or still being copied, such as ${unfinished[0]}`,
      ),
    );
  return new Set(whole);
}

/** Takes in what comes into folders until it is interrupted; gives the worst status of all that came. */
async function watch(folders: readonly string[], options: IngestCommandOptions): Promise<number> {
  const { watchFolders } = await import('../steps/watch-folder.ts');
  const file = folders.find((folder) => !statSync(folder, { throwIfNoEntry: false })?.isDirectory());
  if (file !== undefined) throw new DryholdError('bad-usage', { problem: `--watch wants folders: ${file} is none` });
  const interrupted = new AbortController();
  endInOrder(() => interrupted.abort());
  if (!options.quiet) remark(`watching ${folders.join(', ')}; Ctrl+C ends it`);
  let status: number = exitStatus.done;
  const handle = async (paths: string[]): Promise<boolean> => {
    try {
      const result = await takeIn(folders, options, new Set(paths));
      if (options.json) sayJson(result, 0);
      else tellIngest(result, options);
      status = Math.max(status, Math.min(ingestStatus(result), exitStatus.refused));
      return true;
    } catch (error) {
      if (!(error instanceof DryholdError)) throw error;
      // Somebody else works on the store: the files are still there.
      if (error.code === 'store-busy') return false;
      remark(error.message);
      status = exitStatus.refused;
      return true;
    }
  };
  await watchFolders(folders, handle, { signal: interrupted.signal });
  return status;
}

/** Nothing but unreadable files is "unreadable"; something refused beside good rows is "done with something refused". */
function ingestStatus(result: IngestResult): number {
  const refused = result.refusedFiles.length > 0 || result.sources.some((source) => source.rows_rejected > 0);
  if (!refused) return exitStatus.done;
  return result.sources.length === 0 && result.alreadyIn.length === 0 ? exitStatus.unreadable : exitStatus.refused;
}
