/** A table as a page carries it: columns of numbers as base64, words as places in a list. */
export interface PageTable {
  readonly count: number;
  readonly columns: readonly PageColumn[];
}

interface PageColumn {
  readonly name: string;
  readonly kind: 'u8' | 'u16' | 'u32' | 'f32';
  /** Little-endian, base64. */
  readonly bytes: string;
  readonly words?: readonly string[];
}

/** What may stand in a cell; null is written as not a number. */
export type PageCell = string | number | null;

/**
 * Packs rows for a page: half the size of JSON, and faster to read.
 *
 * @param rows all with the same fields; a field is text in all rows or a number (or null) in all; numbers keep seven places, whole ones all
 */
export function pageTable(rows: readonly Readonly<Record<string, PageCell>>[]): PageTable {
  const names = Object.keys(rows[0] ?? {});
  return {
    count: rows.length,
    columns: names.map((name) => {
      const cells = rows.map((row) => row[name]);
      return typeof cells[0] === 'string'
        ? wordColumn(name, cells.map(String))
        : numberColumn(name, cells.map(asNumber));
    }),
  };
}

const asNumber = (cell: PageCell): number => (cell === null ? Number.NaN : Number(cell));

function wordColumn(name: string, cells: readonly string[]): PageColumn {
  const words = [...new Set(cells)];
  const places = new Map(words.map((word, place) => [word, place]));
  return {
    ...numberColumn(
      name,
      cells.map((cell) => places.get(cell) ?? 0),
    ),
    words,
  };
}

function numberColumn(name: string, values: readonly number[]): PageColumn {
  const isWhole = values.every((value) => Number.isInteger(value) && value >= 0 && value < 2 ** 32);
  const most = isWhole ? values.reduce((large, value) => Math.max(large, value), 0) : 0;
  const [kind, array] = !isWhole
    ? (['f32', Float32Array.from(values)] as const)
    : most < 2 ** 8
      ? (['u8', Uint8Array.from(values)] as const)
      : most < 2 ** 16
        ? (['u16', Uint16Array.from(values)] as const)
        : (['u32', Uint32Array.from(values)] as const);
  return { name, kind, bytes: Buffer.from(array.buffer).toString('base64') };
}
