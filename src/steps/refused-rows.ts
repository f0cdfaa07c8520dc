import { columnsOf } from '../records/table.ts';
import { type Reject, rejects } from '../records/tables/rejects.ts';
import { markedText } from '../store/export-table.ts';
import { identifier, literal } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { writeWhole } from '../store/whole-file.ts';

/** What of a file was refused for one reason. */
export interface RefusedKind {
  readonly file: string;
  readonly table_name: string | null;
  readonly reason_id: string;
  /** What is wrong, without the value that is. */
  readonly detail: string;
  readonly rows: number;
  /** The first rows of the kind. */
  readonly first: readonly Reject[];
}

/** How many rows of a kind are shown. */
const shownRows = 3;

/**
 * The refused rows of a store, gathered by file and by what is wrong, most first within a file.
 *
 * @param file only those of files whose name holds this text
 */
export async function refusedRows(store: Store, file?: string): Promise<RefusedKind[]> {
  // The value that is wrong differs from row to row: it stands in quotes, or is a number.
  const kind = String.raw`regexp_replace(regexp_replace(coalesce(detail, ''), '"([^"\\]|\\.)*"', '…', 'g'), '-?\b[0-9][0-9.e+-]*\b', '…')`;
  return store.rows<RefusedKind & Record<string, unknown>>(
    `SELECT file, table_name, reason_id, detail, rows, first FROM (
       SELECT file, table_name, reason_id, ${kind} AS kind, min_by(detail, line) AS detail, count(*) AS rows,
         min_by({line: line::DOUBLE, detail: detail, raw: raw}, line, ${shownRows}) AS first
       FROM rejects ${ofFiles(file)} GROUP BY file, table_name, reason_id, kind)
     ORDER BY file, rows DESC, detail`,
  );
}

/** Writes the refused rows to a CSV file, sorted by file and line. */
export async function writeRefused(store: Store, path: string, file?: string): Promise<void> {
  const list = columnsOf(rejects).map((column) =>
    column.kind === 'text' ? `${markedText(identifier(column.name))} AS ${identifier(column.name)}` : column.name,
  );
  const select = `SELECT ${list.join(', ')} FROM rejects ${ofFiles(file)} ORDER BY file, line, table_name, reason_id, detail`;
  await writeWhole(path, (to) => store.run(`COPY (${select}) TO ${literal(to)} (FORMAT csv, HEADER)`));
}

function ofFiles(file: string | undefined): string {
  return file === undefined ? '' : `WHERE contains(file, ${literal(file)})`;
}
