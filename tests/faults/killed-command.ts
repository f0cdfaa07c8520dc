import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import type { Random } from '../../src/numerics/random.ts';

/** Compiled once and not at every start, which would take longer than the work; one folder, whatever run ends how. */
const env = { ...process.env, NODE_COMPILE_CACHE: join(tmpdir(), 'dryhold-compiled') };

const command = fileURLToPath(new URL('../../bin/dryhold.js', import.meta.url));

/** When a command is killed: so long after its start, or after something was seen in its store. */
export interface Moment {
  readonly after: 'start' | Sight;
  readonly ms: number;
}

/** What of a run shows in the store's folder: a file of readings being written, one with its name, memory, the log of the engine. */
const sights = ['staged', 'segment', 'spill', 'wal'] as const;
type Sight = (typeof sights)[number];

/** Two of three moments are drawn over the whole run and a tenth beyond; the others aim at what the command writes. */
export function drawMoment(random: Random, durationMs: number): Moment {
  if (random.uniform() < 2 / 3) return { after: 'start', ms: random.uniform() * 1.1 * durationMs };
  const sight = sights[Math.floor(random.uniform() * sights.length)] ?? 'wal';
  return { after: sight, ms: random.uniform() < 0.5 ? random.uniform() * 10 : random.uniform() * 150 };
}

export function momentText({ after, ms }: Moment): string {
  return `${ms.toFixed(0)} ms after ${after}`;
}

/** Runs a command to its end. */
export function runWhole(args: readonly string[]): { status: number | null; stderr: string; ms: number } {
  const begun = performance.now();
  const { status, stderr } = spawnSync(process.execPath, [command, ...args], {
    encoding: 'utf8',
    env,
    maxBuffer: 1 << 28,
  });
  return { status, stderr, ms: performance.now() - begun };
}

/**
 * Starts a command and kills it at a moment.
 *
 * @param store the folder that is looked at for what the moment waits for
 * @returns whether the signal ended it; else it had ended by itself
 */
export async function killAt(args: readonly string[], store: string, moment: Moment): Promise<boolean> {
  const before = new Map(sights.map((sight) => [sight, seen(store, sight)]));
  const child = spawn(process.execPath, [command, ...args], { env, stdio: 'ignore' });
  const ended = once(child, 'exit');
  if (moment.after !== 'start') {
    const known = before.get(moment.after);
    while (isRunning(child) && seen(store, moment.after) === known) await delay(1);
  }
  await Promise.race([delay(moment.ms), ended]);
  child.kill('SIGKILL');
  await ended;
  return child.signalCode === 'SIGKILL';
}

function isRunning(child: ChildProcess): boolean {
  return child.exitCode === null && child.signalCode === null;
}

/** What there is to be seen, as text that changes when it does. */
function seen(store: string, sight: Sight): string {
  if (sight === 'wal') return String(statSync(join(store, 'catalogue.duckdb.wal'), { throwIfNoEntry: false })?.size);
  const folder = join(store, sight === 'spill' ? 'spill' : 'readings');
  const names = statSync(folder, { throwIfNoEntry: false }) === undefined ? [] : readdirSync(folder);
  if (sight === 'spill') return names.join();
  return names.filter((name) => /^\d+\.parquet$/.test(name) === (sight === 'segment')).join();
}
