import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The command, as a shell would start it. */
export const command = fileURLToPath(new URL('../../bin/dryhold.js', import.meta.url));

/** The samples of the project. */
export const samples = fileURLToPath(new URL('../../sample-data/', import.meta.url));

/** What a run of the command gave. */
export interface Run {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command in a child process, by another Node where one is named. */
export function dryhold(
  args: readonly string[],
  { cwd, node = process.execPath }: { cwd?: string; node?: string } = {},
): Run {
  const { status, stdout, stderr } = spawnSync(node, [command, ...args], {
    cwd,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  return { status, stdout, stderr };
}

/** Runs a line of bash in which `dryhold` is the command; its status is that of the first part of a pipe that failed. */
export function bash(line: string, cwd: string): Run {
  const { status, stdout, stderr } = spawnSync(
    'bash',
    ['-c', `set -o pipefail; dryhold() { '${process.execPath}' '${command}' "$@"; }; ${line}`],
    { cwd, encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  return { status, stdout, stderr };
}

/** The machine's own Node, where it is an old one. */
export const oldNode = ['/usr/bin/node', '/usr/local/bin/node'].find(
  (path) => existsSync(path) && spawnSync(path, ['--version'], { encoding: 'utf8' }).stdout.startsWith('v20.'),
);

/** A folder for one test file; `remove` it at the end. */
export function temporaryFolder(): { path: string; remove: () => void } {
  const path = mkdtempSync(join(tmpdir(), 'dryhold-cli-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}
