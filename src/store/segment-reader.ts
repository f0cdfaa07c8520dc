import { type DuckDBConnection, type DuckDBDataChunk, DuckDBInstance } from '@duckdb/node-api';

/** Whatever can run a query over segments: a store, or a reader of another thread. */
export interface ChunkSource {
  /** Runs a query and reads its result whole, in chunks; for slices, which are small. */
  chunks(sql: string): Promise<Iterable<DuckDBDataChunk>>;
}

/** The chunks of a query's whole result. A stream would go through a waiting thread for each, at twice the cost. */
export async function resultChunks(connection: DuckDBConnection, sql: string): Promise<Iterable<DuckDBDataChunk>> {
  const result = await connection.run(sql);
  return (function* () {
    for (let index = 0; index < result.chunkCount; index += 1) yield result.getChunk(index);
  })();
}

/** Reads segments from another thread: its own engine, without a catalogue, on one core, with little memory. */
export class SegmentReader implements ChunkSource {
  readonly #connection: Promise<DuckDBConnection>;

  constructor() {
    const instance = DuckDBInstance.create(':memory:', {
      threads: '1',
      memory_limit: '256MB',
      autoinstall_known_extensions: 'false',
    });
    this.#connection = instance.then((opened) => opened.connect());
  }

  async chunks(sql: string): Promise<Iterable<DuckDBDataChunk>> {
    return resultChunks(await this.#connection, sql);
  }
}
