import { expect } from 'vitest';
import { cellReader, type CellValue, type MappedFile } from '../../src/sources/map-cell.ts';
import { parseSourceMap } from '../../src/sources/parse-source-map.ts';
import type { MapCell, SourceMap } from '../../src/sources/source-map.ts';

/** A file that a cell of a map is read from; all of it has a usual value. */
export interface Given {
  /** Words of the map beside its rows. */
  readonly map?: object;
  readonly columns?: readonly string[];
  readonly units?: readonly string[];
  readonly head?: Record<string, unknown>;
  readonly path?: string;
  readonly table?: string;
  /** Rows as objects, of files that nest. */
  readonly nested?: boolean;
}

const alone = (map: object): SourceMap =>
  parseSourceMap(
    JSON.stringify({ name: 'm', rows: [{ table: 'people', columns: { technician_id: { constant: 'x' } } }], ...map }),
    'map.json',
  );

/** What a cell of a map reads from rows, one after the other. */
export function readAll(name: string, cell: object, rows: readonly unknown[], given: Given = {}): unknown[] {
  const file: MappedFile = {
    map: alone(given.map ?? {}),
    mapPath: 'map.json',
    path: given.path ?? 'log.csv',
    columns: given.columns ?? ['a', 'b', 'c'],
    ...(given.units === undefined ? {} : { units: given.units }),
    nested: given.nested ?? false,
    head: new Map(Object.entries(given.head ?? {})),
    starts: new Map(),
    clocks: new Map(),
  };
  const read = cellReader(file, given.table ?? 'readings', name, cell as MapCell, 'where');
  const shown = (value: CellValue) => ('problem' in value ? `! ${value.problem}` : value.value);
  return rows.map((row) =>
    shown(
      read(
        given.nested
          ? { line: 1, cells: undefined, around: [row], raw: () => '' }
          : { line: 1, cells: row as [], raw: () => '' },
        'J',
      ),
    ),
  );
}

/** The same from the first cell of one row. */
export const one = (name: string, cell: object, value: unknown, given: Given = {}) =>
  readAll(name, cell, [[value]], given)[0];
/** Numbers to seven decimals. */
export const nearly = (value: number) => expect.closeTo(value, 7) as unknown;
