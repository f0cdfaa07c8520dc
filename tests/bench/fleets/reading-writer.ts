import { DOUBLE, type DuckDBConnection, DuckDBDataChunk, DuckDBInstance, ENUM } from '@duckdb/node-api';
import type { Readings } from '../../../src/simulate/recorder.ts';

const chunkRows = 2048;

/** What was logged of a job. */
export interface JobReadings {
  /** Of the job, among all that a file may hold. */
  readonly place: number;
  readonly readings: Readings;
}
/** Writes readings of vacuum logs into Parquet files, chunk by chunk, by an engine of its own on one core. */
export class ReadingWriter {
  readonly #engine: DuckDBInstance;
  readonly #connection: DuckDBConnection;

  private constructor(engine: DuckDBInstance, connection: DuckDBConnection) {
    this.#engine = engine;
    this.#connection = connection;
  }

  static async begin(): Promise<ReadingWriter> {
    const engine = await DuckDBInstance.create(':memory:', { threads: '1' });
    const connection = await engine.connect();
    return new ReadingWriter(engine, connection);
  }

  /**
   * Writes one file: the readings of neighbouring jobs, in the order of job and time.
   *
   * @param jobIds of all jobs that it may hold
   * @param logs the place of a job among these, and its readings
   * @returns how many readings it holds
   */
  async write(path: string, jobIds: readonly string[], logs: Iterable<JobReadings>): Promise<number> {
    const type = ENUM(jobIds);
    await this.#connection.run(
      `CREATE TABLE part (job_id ${type.toString()}, elapsed_s DOUBLE, vacuum_pa DOUBLE, line_c DOUBLE)`,
    );
    const appender = await this.#connection.createAppender('part');
    const chunk = DuckDBDataChunk.create([type, DOUBLE, DOUBLE, DOUBLE], chunkRows);
    const vectors = [0, 1, 2, 3].map((at) => chunk.getColumnVector(at));
    const [places, ...values] = vectors.map((vector) => (vector as unknown as { items: Float64Array }).items);
    let filled = 0;
    let written = 0;
    const hand = () => {
      chunk.rowCount = filled;
      for (const vector of vectors) vector.flush();
      appender.appendDataChunk(chunk);
      written += filled;
      filled = 0;
    };
    for (const { place, readings } of logs) {
      const columns = [readings.elapsedS, readings.vacuumPa, readings.lineC];
      const rows = readings.elapsedS.length;
      for (let from = 0; from < rows; ) {
        const end = Math.min(rows, from + chunkRows - filled);
        for (const [at, column] of columns.entries()) values[at].set(column.subarray(from, end), filled);
        places.fill(place, filled, filled + end - from);
        filled += end - from;
        from = end;
        if (filled === chunkRows) hand();
      }
    }
    if (filled > 0) hand();
    appender.closeSync();
    const orNull = (name: string) => `CASE WHEN isnan(${name}) THEN NULL ELSE round(${name}, 2) END AS ${name}`;
    await this.#connection.run(`COPY (SELECT job_id::VARCHAR AS job_id, elapsed_s, ${orNull('vacuum_pa')}, ${orNull('line_c')}
      FROM part) TO '${path}' (FORMAT parquet, COMPRESSION zstd)`);
    await this.#connection.run('DROP TABLE part');
    return written;
  }

  close(): void {
    this.#connection.closeSync();
    this.#engine.closeSync();
  }
}
