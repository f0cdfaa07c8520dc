import type { SourceRow } from '../sources/source-file.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';

/** Books a row that is refused, for one table of its file. */
export async function rejectRow(
  delivery: Delivery,
  { number, file }: { readonly number: number; readonly file: DeliveredFile },
  row: SourceRow,
  detail: string,
): Promise<void> {
  file.rowsRejected += 1;
  const reason = row.problem === undefined ? 'wrong-value' : 'wrong-shape';
  const where = { file: file.file, line: row.line, table_name: file.table.name };
  await delivery.reject({ ...where, reason_id: reason, detail, raw: row.raw() }, number);
}
