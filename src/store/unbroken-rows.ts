import { DryholdError } from '../errors.ts';
import { rawLimit, type SourceRow } from '../sources/source-file.ts';

/** Errors of a reader that met what the format does not allow say nothing to a person, nor do those that name a type of no number. */
function brokenBy(error: unknown): string {
  const [first] = (error as Error).message.split('\n');
  if (error instanceof TypeError || error instanceof RangeError || /\bundefined\b/.test(first))
    return 'what it holds contradicts itself';
  // Which file it was is told beside.
  return first.replaceAll(/ (?:file )?'[^']*[\\/][^']*'/g, ' it');
}

/** A file that is none of its kind, in words. */
export function noFileOfKind(path: string, kind: string, error: unknown): DryholdError {
  return new DryholdError(
    'file-unreadable',
    { path, problem: `no ${kind} file (${brokenBy(error)}), or only a part of one: export or copy it again` },
    error,
  );
}

/** The rows, with what breaks off in their midst told as a file that cannot be read. */
export async function* unbroken(path: string, rows: AsyncGenerator<SourceRow>): AsyncGenerator<SourceRow> {
  let line = 0;
  try {
    for await (const row of rows) {
      line = row.line;
      yield row;
    }
  } catch (error) {
    const problem = `breaks off after row ${line} (${brokenBy(error)})`;
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
}

/** The cells of a row as one text, for the book of what was refused. */
export function cellsText(cells: readonly unknown[]): string {
  return JSON.stringify(cells, (_, cell: unknown) => {
    if (typeof cell === 'bigint') return Number(cell);
    return typeof cell === 'number' && !Number.isFinite(cell) ? String(cell) : cell;
  }).slice(0, rawLimit);
}
