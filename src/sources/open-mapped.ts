import { DryholdError } from '../errors.ts';
import { headValues } from './head-values.ts';
import type { LogStarts } from './log-clock.ts';
import type { MappedFile } from './map-cell.ts';
import { type FileKind, type Layout, noTable, type SourceRows } from './source-file.ts';
import type { MapEntry, SourceMap } from './source-map.ts';

/** One table of a mapped file: its layout, and the entries of the map that it feeds. */
export interface MappedPart {
  readonly layout: Layout;
  /** Whether a file may come without it. */
  readonly optional: boolean;
  readonly entries: readonly { readonly entry: MapEntry; readonly index: number }[];
}

/** The tables of a file that a map reads. */
export function mappedParts(map: SourceMap): MappedPart[] {
  const entries = map.rows.map((entry, index) => ({ entry, index }));
  const names = [...new Set(map.rows.map((entry) => entry.part))];
  return names.map((name) => {
    const own = entries.filter(({ entry }) => entry.part === name);
    const ragged = own.some(({ entry }) => entry.only !== undefined);
    const optional = name !== undefined && map.parts?.[name]?.optional === true;
    return { layout: { ...layoutOf(map, name), ragged }, optional, entries: own };
  });
}

/** Whether an error says no more than that a table is not there which a file may come without. */
export function isAbsent(part: MappedPart, error: unknown): boolean {
  return part.optional && error instanceof DryholdError && error.cause === noTable;
}

function layoutOf({ file, parts }: SourceMap, part: string | undefined): Layout {
  const of = part === undefined ? file : (parts?.[part] ?? file);
  const given = <Value>(name: keyof Layout, value: Value | undefined) => (value === undefined ? {} : { [name]: value });
  return {
    ...given('encoding', file.encoding),
    delimiter: file.delimiter,
    quote: file.quote,
    nested: true,
    skipLines: of.skip_lines,
    header: of.header,
    unitRow: of.unit_row,
    skipAfterHeader: of.skip_after_header,
    ...given('afterLine', of.after_line),
    ...given('headerBegins', of.header_begins),
    ...given('untilLine', of.until_line),
    ...given('sheet', of.sheet),
    ...given('range', of.range),
    ...given('rowsAt', of.rows_at),
  };
}

/** A file as its map sees it, once the values that stand in it only once are read. */
export async function mappedFile(
  { map, path: mapPath }: { readonly map: SourceMap; readonly path: string },
  kind: FileKind['id'],
  path: string,
  part: MappedPart,
  source: Pick<SourceRows, 'columns' | 'units'>,
  starts: LogStarts,
): Promise<MappedFile> {
  const { columns, units } = source;
  return {
    map,
    mapPath,
    path,
    columns,
    ...(units === undefined ? {} : { units }),
    nested: kind === 'json' || kind === 'ndjson',
    head: await headValues(kind, path, part.layout, map.head),
    starts,
    clocks: new Map(),
  };
}
