import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const command = fileURLToPath(new URL('../../bin/dryhold.js', import.meta.url));

/** Runs the command to its end, as another user or in another folder where one is named. */
export function runDryhold(
  args: readonly string[],
  { user, cwd }: { user?: number; cwd?: string } = {},
): { status: number | null; stdout: string; stderr: string } {
  const whole = [process.execPath, command, ...args];
  const [program, ...rest] =
    user === undefined ? whole : ['setpriv', `--reuid=${user}`, `--regid=${user}`, '--clear-groups', ...whole];
  const { status, stdout, stderr } = spawnSync(program, rest, { encoding: 'utf8', cwd });
  return { status, stdout, stderr };
}

/** Starts the command. */
export function startDryhold(args: readonly string[], stdout: 'ignore' | 'pipe' = 'ignore'): ChildProcess {
  return spawn(process.execPath, [command, ...args], { stdio: ['ignore', stdout, 'ignore'] });
}
