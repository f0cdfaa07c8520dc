import type { DuckDBDataChunk } from '@duckdb/node-api';
import type { Store } from './store.ts';

/** What is recorded of a job, and the fact that counts its readings. */
const readings = {
  pressure: 'pressure_readings',
  vacuum: 'vacuum_readings',
  charge: 'scale_readings',
  run: 'run_readings',
} as const;

export type Logged = keyof typeof readings;

/** Fewer readings are no recording. */
const fewestReadings = 3;

/**
 * Of which jobs of a fleet what was recorded; `readFleetJobs` comes first.
 *
 * @param count how many jobs the fleet has
 * @returns by place, 1 for a job with a recording
 */
export async function readLoggedJobs(store: Store, count: number): Promise<Readonly<Record<Logged, Uint8Array>>> {
  const logged = {
    pressure: new Uint8Array(count),
    vacuum: new Uint8Array(count),
    charge: new Uint8Array(count),
    run: new Uint8Array(count),
  };
  const flags = Object.values(readings).map((column) => `coalesce(${column} >= ${fewestReadings}, false)::UTINYINT`);
  const result = await store.connection.stream(
    `SELECT f.rowid::INTEGER, ${flags.join(', ')} FROM temp.fleet_jobs f JOIN facts USING (job_id)`,
  );
  for (let chunk = await result.fetchChunk(); chunk !== null && chunk.rowCount > 0; chunk = await result.fetchChunk()) {
    const places = itemsOf(chunk, 0);
    const { rowCount } = chunk;
    for (const [at, of] of Object.values(logged).entries()) {
      const isLogged = itemsOf(chunk, at + 1);
      for (let row = 0; row < rowCount; row += 1) of[places[row]] = isLogged[row];
    }
  }
  return logged;
}

function itemsOf(chunk: DuckDBDataChunk, column: number): ArrayLike<number> {
  return (chunk.getColumnVector(column) as unknown as { items: ArrayLike<number> }).items;
}
