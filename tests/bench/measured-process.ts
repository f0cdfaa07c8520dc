import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import type { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { median } from '../../src/numerics/median.ts';

/** What a process took, from its start to its end. */
export interface Cost {
  readonly seconds: number;
  /** Of all its threads. */
  readonly cpuSeconds: number;
  /** The most memory that it held [MiB]. */
  readonly peakMiB: number;
}

export interface Ran extends Cost {
  readonly stdout: string;
}

/** Runs a script of Node with its arguments, and with those of Node itself. */
export type RunScript = (script: string, args: readonly string[], nodeArgs?: readonly string[]) => Promise<Ran>;

/** The program, as the package starts it. */
export const dryhold = fileURLToPath(new URL('../../bin/dryhold.js', import.meta.url));

const tellsUsage = new URL('tells-usage.mjs', import.meta.url).href;

/** Runs a script as a process of its own. What it says on standard error is kept for when it fails. */
export const ownProcess: RunScript = async (script, args, nodeArgs = []) => {
  const start = performance.now();
  const child = spawn(process.execPath, [...nodeArgs, '--import', tellsUsage, script, ...args], {
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
  });
  const said = Promise.all([1, 2, 3].map((at) => text(child.stdio[at] as Readable)));
  const [status] = (await once(child, 'exit')) as [number | null];
  const seconds = (performance.now() - start) / 1000;
  const [stdout, stderr, used] = await said;
  if (status !== 0) throw new Error(`${script} ${args.join(' ')} ended with ${status}: ${stderr.trim()}`);
  return { seconds, stdout, ...(JSON.parse(used) as Omit<Cost, 'seconds'>) };
};

/** How long a command takes that does nothing but start [s]. */
export function startSeconds(args: readonly string[], env: NodeJS.ProcessEnv): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, [dryhold, ...args], { env, encoding: 'utf8' });
  if (status !== 0) throw new Error(`dryhold ${args.join(' ')} ended with ${status}: ${stderr}`);
  return (performance.now() - start) / 1000;
}

/** The middle of several rounds, with the most memory of any. */
export function ofRounds(rounds: readonly Cost[]): Cost {
  return {
    seconds: median(rounds.map(({ seconds }) => seconds)),
    cpuSeconds: median(rounds.map(({ cpuSeconds }) => cpuSeconds)),
    peakMiB: Math.max(...rounds.map(({ peakMiB }) => peakMiB)),
  };
}

/** Both one after the other. */
export function together(one: Cost, other: Cost): Cost {
  return {
    seconds: one.seconds + other.seconds,
    cpuSeconds: one.cpuSeconds + other.cpuSeconds,
    peakMiB: Math.max(one.peakMiB, other.peakMiB),
  };
}
