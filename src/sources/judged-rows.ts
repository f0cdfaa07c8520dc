import type { ParsedRow, RawRow } from '../records/row.ts';
import type { MappedFile } from './map-cell.ts';
import { mapRows } from './map-rows.ts';
import type { MappedPart } from './open-mapped.ts';
import type { SourceRow, SourceRows } from './source-file.ts';

/** A row of a mapped file and what became of it. */
export interface JudgedRow {
  readonly source: SourceRow;
  /** The typed rows of ours, by table. */
  readonly rows: readonly { readonly table: string; readonly row: Record<string, unknown> }[];
  /** The tables that it is refused for, each with the row that is refused and why. */
  readonly refused: readonly { readonly table: string; readonly problem: string; readonly source: SourceRow }[];
}

/**
 * Applies a map to the rows of one table of a file and judges what comes of it. A row is taken whole or refused for all the
 * tables it feeds; a row that says nothing to a table is none of that table. What stands once in a file is judged by
 * itself: it comes from the first row that gives it, and is refused, once, where none does.
 *
 * @param parsers of the tables that the map feeds, by name
 * @throws DryholdError `map-invalid` where the file lacks what the map names
 */
export async function* judgedRows(
  file: MappedFile,
  entries: MappedPart['entries'],
  source: SourceRows,
  parsers: ReadonlyMap<string, (raw: RawRow) => ParsedRow>,
): AsyncGenerator<JudgedRow> {
  const missing = new Map<string, { table: string; problem: string; source: SourceRow }>();
  const judged = (table: string, raw: RawRow) => {
    const parsed = parsers.get(table)?.(raw) ?? { column: table, problem: 'unknown table' };
    return 'row' in parsed ? parsed : { problem: `${parsed.column}: ${parsed.problem}` };
  };
  for await (const mapped of mapRows(file, entries, source)) {
    const rows: { table: string; row: Record<string, unknown> }[] = [];
    for (const { table, made, take } of mapped.once) {
      const result = 'raw' in made ? judged(table, made.raw) : made;
      if ('row' in result) {
        rows.push({ table, row: result.row });
        missing.delete(table);
        take();
      } else if (!missing.has(table)) missing.set(table, { table, problem: result.problem, source: mapped.source });
    }
    const results = mapped.rows.map(({ table, raw }) => ({ table, result: judged(table, raw) }));
    const wrong = results.map(({ result }) => result).find((result) => 'problem' in result);
    const problem = mapped.problem ?? wrong?.problem;
    if (problem === undefined)
      for (const { table, result } of results) if ('row' in result) rows.push({ table, row: result.row });
    const refused = problem === undefined ? [] : mapped.tables;
    yield {
      source: mapped.source,
      rows,
      refused: refused.map((table) => ({ table, problem: problem ?? '', source: mapped.source })),
    };
  }
  for (const each of missing.values()) yield { source: each.source, rows: [], refused: [each] };
}
