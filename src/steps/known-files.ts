import type { Store } from '../store/store.ts';
import type { LoadedMap } from './loaded-map.ts';

/** Which files the store has, byte by byte, under which map: looked up once, since there may be very many. */
export class KnownFiles {
  readonly #known = new Set<string>();

  static async read(store: Store): Promise<KnownFiles> {
    const known = new KnownFiles();
    const rows = await store.rows<{ sha256: string; map_sha256: string; tables: number }>(
      'SELECT sha256, map_sha256, count(DISTINCT table_name) AS tables FROM sources GROUP BY ALL',
    );
    for (const { sha256, map_sha256, tables } of rows) known.#known.add(`${sha256} ${map_sha256} ${tables}`);
    return known;
  }

  has(sha256: string, map: LoadedMap): boolean {
    return this.#known.has(keyOf(sha256, map));
  }

  add(sha256: string, map: LoadedMap): void {
    this.#known.add(keyOf(sha256, map));
  }
}

function keyOf(sha256: string, { map, sha256: mapSha256 }: LoadedMap): string {
  return `${sha256} ${mapSha256} ${new Set(map.rows.map((entry) => entry.table)).size}`;
}
