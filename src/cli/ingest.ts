import type { IngestResult } from '../steps/ingest-result.ts';
import { type AddCommand, type CommonOptions, exitStatus, Progress, remark, say, sayJson } from './context.ts';
import { withStore } from './with-store.ts';

interface IngestCommandOptions extends CommonOptions {
  readonly map?: string[];
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
    .addHelpText(
      'after',
      `
examples:
  dryhold ingest exports/2026-06/
  dryhold ingest "logs/*.csv" --map their-logs.json
  dryhold ingest drop/ --map vacuum.json scale.json
  dryhold rejects                           what was refused, and why`,
    )
    .action(async (paths: string[], options: IngestCommandOptions) => {
      const { ingest } = await import('../steps/ingest.ts');
      const progress = new Progress('reading', options);
      const result = await withStore(options.store, 'write', (store) =>
        ingest(store, paths, {
          ...(options.map === undefined ? {} : { map: options.map }),
          onProgress: ({ bytesRead, bytes, file, rows }) =>
            progress.update(bytesRead, bytes, rows === 0 ? file : `${file}, ${grouped(rows)} rows`),
        }),
      ).finally(() => progress.stop());
      const refused = result.refusedFiles.length > 0 || result.sources.some((source) => source.rows_rejected > 0);
      if (options.json) sayJson(result);
      else tellPeople(result, options);
      settle(ingestStatus(result, refused));
    });
};

/** Nothing but unreadable files is "unreadable"; something refused beside good rows is "done with something refused". */
function ingestStatus(result: IngestResult, refused: boolean): number {
  if (!refused) return exitStatus.done;
  return result.sources.length === 0 && result.alreadyIn.length === 0 ? exitStatus.unreadable : exitStatus.refused;
}

function tellPeople(result: IngestResult, { store, quiet = false }: CommonOptions): void {
  for (const source of result.sources) {
    const parts = [`${countOf(source.rows_kept, 'row')} kept`];
    if (source.rows_repeated > 0) parts.push(`${grouped(source.rows_repeated)} already in`);
    if (source.rows_rejected > 0) parts.push(`${grouped(source.rows_rejected)} refused`);
    say(`${source.file}: ${parts.join(', ')}`);
  }
  for (const file of result.alreadyIn) say(`${file}: already in, left alone`);
  if (!quiet) {
    for (const { file, columns } of result.unknownColumns)
      remark(`${file}: left out columns that the table does not have: ${columns.join(', ')}`);
  }
  for (const { file, detail } of result.refusedFiles) remark(`${file}: refused: ${detail}`);
  const rejected = result.sources.reduce((sum, source) => sum + source.rows_rejected, 0);
  if (rejected > 0 && !quiet)
    remark(`${countOf(rejected, 'row')} refused; to see which, and why: dryhold export rejects --store ${store}`);
}

/** A count with its noun. */
export function countOf(count: number, noun: string): string {
  return `${grouped(count)} ${noun}${count === 1 ? '' : 's'}`;
}

/** A count with its thousands apart. */
export function grouped(count: number): string {
  return count.toLocaleString('en').replaceAll(',', '\u00a0');
}
