import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { median } from '../../src/numerics/median.ts';
import type { BenchRow } from './bench-row.ts';
import { goals } from './goals.ts';
import { dryhold, startSeconds } from './measured-process.ts';

/** The environment of a user: no cache of compiled modules but what the program itself sets up. */
function plainEnvironment(): NodeJS.ProcessEnv {
  const { NODE_COMPILE_CACHE: _cache, NODE_OPTIONS: _options, ...plain } = process.env;
  return plain;
}

/** What a start takes: the version asked for, in the middle of so many rounds [s]. */
export function startOfProgram(rounds: number): number {
  return middle(['--version'], rounds, plainEnvironment());
}

/** The commands that the program's help lists. */
export function listedCommands(): string[] {
  const { stdout } = spawnSync(process.execPath, [dryhold, '--help'], { encoding: 'utf8' });
  const [, listed = ''] = /^commands:\n((?: {2}.*\n)+)/m.exec(stdout) ?? [];
  return [...listed.matchAll(/^ {2}([a-z]+)/gm)].map(([, command]) => command).filter((command) => command !== 'help');
}

/**
 * How soon every command answers, as it is and where Node keeps what it compiled (NODE_COMPILE_CACHE).
 *
 * @param startS as `startOfProgram` measured it
 */
export function measureStartUp(
  commands: readonly string[],
  rounds: number,
  startS: number,
  folder: string,
  say: (what: string) => void,
): BenchRow[] {
  const plain = plainEnvironment();
  const cached = { ...plain, NODE_COMPILE_CACHE: join(folder, 'compiled') };
  const worst = (environment: NodeJS.ProcessEnv) => {
    const all = commands.map((command) => {
      say(`start-up of ${command}`);
      const args = [command, '--help'];
      // The first start fills what is kept.
      if (environment === cached) startSeconds(args, environment);
      return { command, seconds: middle(args, rounds, environment) };
    });
    return all.reduce((slowest, each) => (each.seconds > slowest.seconds ? each : slowest));
  };
  const asItIs = worst(plain);
  const kept = worst(cached);
  const of = `the slowest of ${commands.length} commands`;
  return [
    { what: 'start-up: --version', seconds: startS, goal: goals.startUp },
    { what: `start-up: ${of} (${asItIs.command} --help)`, seconds: asItIs.seconds, goal: goals.startUp },
    { what: `start-up: ${of}, with NODE_COMPILE_CACHE (${kept.command} --help)`, seconds: kept.seconds },
  ];
}

function middle(args: readonly string[], rounds: number, environment: NodeJS.ProcessEnv): number {
  return median(Array.from({ length: rounds }, () => startSeconds(args, environment)));
}
