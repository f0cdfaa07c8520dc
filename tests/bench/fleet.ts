// How long `dryhold fleet`, `coach`, `callbacks`, `risk`, `accounts`, `leaks` and `due` take on a large fleet, and how much memory: `npm run bench:fleet -- --jobs 1000000 --technicians 2000`.
// --store makes the store there, or takes the one that is there. Every round is a process of its own.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { version } from '@duckdb/node-api';
import { textTable } from '../../src/cli/text-table.ts';
import { quantile } from '../../src/numerics/quantile.ts';
import { makeLargeFleetStore } from './large-fleet-store.ts';

const { values } = parseArgs({
  options: {
    jobs: { type: 'string', default: '1000000' },
    technicians: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    rounds: { type: 'string', default: '3' },
    store: { type: 'string' },
  },
});
const folder = mkdtempSync(join(tmpdir(), 'dryhold-bench-fleet-'));
const store = values.store ?? join(folder, 'store');
const alone = fileURLToPath(new URL('fleet-alone.ts', import.meta.url));

try {
  if (!existsSync(store))
    await makeLargeFleetStore(store, {
      jobs: Number(values.jobs),
      technicians: Number(values.technicians),
      seed: Number(values.seed),
    });
  console.log(
    `${cpus().length} cores (${cpus()[0]?.model.trim()}), Node ${process.versions.node}, DuckDB ${version()}; ${values.rounds} rounds, medians`,
  );
  const commands = [
    ['fleet'],
    ['fleet', 'rise'],
    ['fleet', 'rise', '--json'],
    ['fleet', '--json'],
    ['coach', 'T-00007'],
    ['callbacks'],
    ['risk'],
    ['accounts'],
    ['accounts', '--by', 'cylinder', '--csv'],
    ['leaks', '--on', '2026-07-01'],
    ['due', '--on', '2026-07-01'],
  ];
  const rows = commands.map((command) => {
    const rounds = Array.from({ length: Number(values.rounds) }, () => timed(command));
    const median = (of: (round: Round) => number): number => quantile(rounds.map(of), 0.5);
    return [
      `dryhold ${command.join(' ')}`,
      `${median(({ seconds }) => seconds).toFixed(1)} s`,
      `${median(({ cpuSeconds }) => cpuSeconds).toFixed(1)} s`,
      `${Math.max(...rounds.map(({ peakMiB }) => peakMiB)).toFixed(0)} MiB`,
      `${(median(({ bytes }) => bytes) / 1e6).toFixed(2)} MB`,
    ];
  });
  console.log(textTable(['', 'elapsed', 'CPU', 'most memory', 'output'], rows));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

interface Round {
  readonly seconds: number;
  readonly cpuSeconds: number;
  readonly peakMiB: number;
  readonly bytes: number;
}

function timed(command: readonly string[]): Round {
  const { stdout, stderr, status } = spawnSync(process.execPath, [alone, ...command, '--store', store], {
    maxBuffer: 2 ** 31 - 1,
  });
  if (status !== 0) throw new Error(`${command.join(' ')}: ${stderr.toString()}`);
  const said = stderr.toString().trim().split('\n').at(-1) ?? '';
  const round = JSON.parse(said) as Omit<Round, 'bytes'> & { status: number };
  if (round.status !== 0) throw new Error(`${command.join(' ')}: ${stderr.toString()}`);
  return { ...round, bytes: stdout.length };
}
