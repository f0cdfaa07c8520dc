import { fileKindOf } from '../file-kinds.ts';
import { cellText } from '../xlsx.ts';
import type { FoundTables } from './draft.ts';

/** The one table of a Parquet or Arrow file, by its columns and first rows. */
export function engineTables(
  name: string,
  kind: 'parquet' | 'arrow',
  columns: readonly string[],
  rows: readonly (readonly unknown[])[],
): FoundTables {
  return {
    kind,
    content: kind === 'parquet' ? 'a Parquet file' : 'an Arrow file',
    file: fileKindOf(name)?.id === kind ? {} : { kind },
    tables: [
      {
        layout: {},
        columns: columns.map((column, index) => ({
          ref: column,
          name: column,
          values: rows.map((cells) => cellText(cells[index])),
        })),
        nested: false,
        doubts: [],
      },
    ],
    heads: [],
    doubts: [],
  };
}
