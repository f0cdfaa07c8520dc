import type { Source } from '../records/tables/sources.ts';
import type { Overruled } from '../store/fed-readings.ts';
import type { IngestResult } from '../steps/ingest-result.ts';
import { visibleText } from '../units/visible-text.ts';
import { remark, say } from './context.ts';

/** Of more files each is no longer told on a line of its own: those with refused rows are, up to so many. */
const mostLines = 40;
/** Of more files that are in already their number is told. */
const mostAlready = 3;

/** Says what an ingest did: results on standard output, what to look at on standard error. */
export function tellIngest(result: IngestResult, { store, quiet = false }: { store: string; quiet?: boolean }): void {
  // A name of a file may hold the end of a line.
  for (const line of resultLines(result)) say(visibleText(line));
  for (const line of remarkLines(result, store, quiet)) remark(visibleText(line));
}

/** What came in, a line a file; of very many files only those with refused rows, and all together. */
export function resultLines({ sources, alreadyIn }: IngestResult): string[] {
  if (sources.length + alreadyIn.length <= mostLines) return [...sourceLines(sources), ...alreadyLines(alreadyIn)];
  const refusing = sourceLines(sources.filter((source) => source.rows_rejected > 0));
  const files = new Set(sources.map((source) => source.file)).size;
  const all = {
    rows_kept: sum(sources, 'rows_kept'),
    rows_repeated: sum(sources, 'rows_repeated'),
    rows_rejected: sum(sources, 'rows_rejected'),
  };
  return [
    ...shortened(refusing, 'files with refused rows'),
    ...(files > 0 ? [`${countOf(files, 'file')}: ${accountOf(all)}`] : []),
    ...(alreadyIn.length > 0 ? [alreadyText(alreadyIn.length)] : []),
  ];
}

/** Who takes in the same folder again and again wants to hear of what is new. */
function alreadyLines(files: readonly string[]): string[] {
  return files.length <= mostAlready
    ? files.map((file) => `${file}: already in, left alone`)
    : [alreadyText(files.length)];
}

const alreadyText = (files: number): string => `${countOf(files, 'file')} already in, left alone`;

/** What a person should look at. */
export function remarkLines(result: IngestResult, store: string, quiet: boolean): string[] {
  const { unknownColumns, leftAside, namedAfterNone, overruled, refusedFiles, sources } = result;
  const refused = refusedFiles.map(({ file, detail }) => `${file}: refused: ${detail}`);
  if (quiet) return shortened(refused, 'files refused');
  const rejected = sum(sources, 'rows_rejected');
  return [
    ...unknownColumns.map(
      ({ file, columns }) => `${file}: left out columns that the table does not have: ${columns.join(', ')}`,
    ),
    ...(leftAside.length > 0
      ? [`${countOf(leftAside.length, 'file')} left aside, for which no map is meant, such as ${leftAside[0]}`]
      : []),
    ...(namedAfterNone.length > 0
      ? [
          `${countOf(namedAfterNone.length, 'file')} left aside, named after no table, such as ${namedAfterNone[0]}; a file of another layout comes in by a source map: dryhold map FILE`,
        ]
      : []),
    ...shortened(refused, 'files refused'),
    ...shortened(overruled.map(overruledLine), 'files overruled'),
    ...(rejected > 0
      ? [`${countOf(rejected, 'row')} refused; to see which, and why: dryhold rejects --store ${store}`]
      : []),
  ];
}

/** A later file that contradicts is a correction, or another gauge that nobody named. */
function overruledLine({ file, by, jobs }: Overruled): string {
  return `${file}: readings of ${countOf(jobs, 'job')} gave way to ${by}, which says otherwise; if that is another gauge's log, name the gauge in its map`;
}

function shortened(lines: readonly string[], what: string): string[] {
  if (lines.length <= mostLines) return [...lines];
  return [...lines.slice(0, mostLines), `and ${grouped(lines.length - mostLines)} more ${what}`];
}

/** A line for each file, with the table where it feeds several. */
function sourceLines(sources: readonly Source[]): string[] {
  const tables = Map.groupBy(sources, (source) => source.file);
  return sources.map((source) => {
    const several = (tables.get(source.file)?.length ?? 0) > 1;
    return `${source.file}: ${several ? `${source.table_name}: ` : ''}${accountOf(source)}`;
  });
}

function accountOf(rows: Pick<Source, 'rows_kept' | 'rows_repeated' | 'rows_rejected'>): string {
  const parts = [`${countOf(rows.rows_kept, 'row')} kept`];
  if (rows.rows_repeated > 0) parts.push(`${grouped(rows.rows_repeated)} already in`);
  if (rows.rows_rejected > 0) parts.push(`${grouped(rows.rows_rejected)} refused`);
  return parts.join(', ');
}

function sum(sources: readonly Source[], column: 'rows_kept' | 'rows_repeated' | 'rows_rejected'): number {
  return sources.reduce((total, source) => total + source[column], 0);
}

/** A count with its noun. */
export function countOf(count: number, noun: string): string {
  return `${grouped(count)} ${noun}${count === 1 ? '' : 's'}`;
}

/** A count with its thousands apart. */
export function grouped(count: number): string {
  return count.toLocaleString('en').replaceAll(',', '\u00a0');
}
