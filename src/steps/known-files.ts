import { basename } from 'node:path';
import { simpleParts } from '../sources/parse-source-map.ts';
import type { Store } from '../store/store.ts';
import type { LoadedMap } from './loaded-map.ts';

/**
 * Which files the store has, byte by byte, under which map: looked up once, since there may be very many. Where a map reads the
 * name of a file, the same bytes under another name are another file.
 */
export class KnownFiles {
  readonly #known = new Set<string>();

  static async read(store: Store): Promise<KnownFiles> {
    const known = new KnownFiles();
    const rows = await store.rows<{ file: string; sha256: string; map_sha256: string; tables: number }>(
      `SELECT file, sha256, map_sha256, count(DISTINCT table_name) AS tables FROM sources WHERE map_sha256 <> '' GROUP BY ALL`,
    );
    for (const { file, sha256, map_sha256, tables } of rows) known.#note(file, `${sha256} ${map_sha256} ${tables}`);
    return known;
  }

  has(file: string, sha256: string, map: LoadedMap): boolean {
    const key = keyOf(sha256, map);
    return this.#known.has(readsFileName(map) ? named(file, key) : key);
  }

  add(file: string, sha256: string, map: LoadedMap): void {
    this.#note(file, keyOf(sha256, map));
  }

  #note(file: string, key: string): void {
    this.#known.add(key);
    this.#known.add(named(file, key));
  }
}

function keyOf(sha256: string, { map, sha256: mapSha256 }: LoadedMap): string {
  return `${sha256} ${mapSha256} ${new Set(map.rows.map((entry) => entry.table)).size}`;
}

function named(file: string, key: string): string {
  return `${key} ${basename(file)}`;
}

function readsFileName({ map }: LoadedMap): boolean {
  return map.rows.some(({ columns }) =>
    Object.values(columns)
      .flatMap(simpleParts)
      .some((part) => 'file_name' in part),
  );
}
