import { cpus, release, totalmem, type } from 'node:os';
import duckdb from '@duckdb/node-api';
import { readFileSync } from 'node:fs';
import { methodVersion } from '../../src/facts/method-version.ts';

/** On what it was measured, and what of: a line each. */
export function machineLines(): string[] {
  const cores = cpus();
  const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
    version: string;
  };
  return [
    `Machine: ${cores.length} cores, ${cores[0]?.model.trim() ?? 'of no name'}, ${(totalmem() / 2 ** 30).toFixed(0)} GiB; ${type()} ${release()}, ${process.arch}; Node ${process.versions.node}`,
    `Versions: dryhold ${version}, method ${methodVersion} of the facts, DuckDB ${duckdb.version()}`,
  ];
}
