// Draws a fleet as bundles: run by the benchmark as a process of its own. `draw.ts vacuum-logs FOLDER FLEET` writes one with its
// readings in Parquet files and, where FLEET asks for it, the same with all of them in one CSV; `draw.ts whole-logs FOLDER FLEET`
// one of CSV with every column. FLEET is JSON. Prints how many readings, and what the drawing alone took.
import { copyFileSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { drawVacuumLogs } from './fleets/draw-vacuum-logs.ts';
import type { VacuumLogFleet } from './fleets/vacuum-job.ts';
import { timed } from './timing.ts';

/** @returns what is printed */
export async function runDraw([kind, folder, fleet]: readonly string[]): Promise<string> {
  const options = JSON.parse(fleet) as VacuumLogFleet & { readonly csv?: boolean };
  let readings = 0;
  const timing = await timed(async () => {
    if (kind === 'whole-logs')
      readings = (await writeBundle(simulateFleet({ jobs: options.jobs, seed: options.seed }), join(folder, 'csv')))
        .readings;
    else readings = await drawVacuumLogs(options, join(folder, 'parquet'));
  });
  if (kind === 'vacuum-logs' && options.csv === true) await writeCsv(folder);
  return JSON.stringify({ readings, ...timing });
}

/** The same bundle with its readings in one CSV, as the interchange format writes them. */
async function writeCsv(folder: string): Promise<void> {
  const [from, to] = [join(folder, 'parquet'), join(folder, 'csv')];
  mkdirSync(to, { recursive: true });
  for (const name of readdirSync(from)) if (name.endsWith('.csv')) copyFileSync(join(from, name), join(to, name));
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  await connection.run(`COPY (SELECT job_id, elapsed_s, CASE WHEN isinf(vacuum_pa) THEN 'over' ELSE vacuum_pa::VARCHAR END AS vacuum_pa, line_c
    FROM read_parquet('${join(from, 'readings', '*.parquet')}')) TO '${join(to, 'readings.csv')}' (HEADER)`);
  connection.closeSync();
  instance.closeSync();
}

if (import.meta.main) console.log(await runDraw(process.argv.slice(2)));
