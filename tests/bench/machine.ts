import { availableParallelism, cpus, totalmem } from 'node:os';
import { version } from '@duckdb/node-api';
import type { Polars } from './polars.ts';

/** What it was measured on, in one line. */
export function machineLine(polars: Polars): string {
  return [
    `${availableParallelism()} cores (${cpus()[0]?.model.trim()})`,
    `${(totalmem() / 2 ** 30).toFixed(0)} GiB`,
    `Node ${process.versions.node}`,
    `DuckDB ${version()}`,
    'version' in polars ? `polars ${polars.version}` : 'no polars',
    new Date().toISOString().slice(0, 10),
  ].join(', ');
}
