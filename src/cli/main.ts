import { readFileSync } from 'node:fs';
import { CommanderError } from 'commander';
import { DryholdError, machineProblem } from '../errors.ts';
import { visibleText } from '../units/visible-text.ts';
import { exitStatus, remark } from './context.ts';
import { endWhenTold } from './interruption.ts';
import { dryholdProgram } from './program.ts';

/**
 * Runs the command line.
 *
 * @param argv arguments after the program's name
 * @returns the exit status: 0 done, 1 done with something refused or found, 2 wrong usage, 3 unreadable, 70 a bug
 */
export async function main(argv: string[]): Promise<number> {
  let status: number = exitStatus.done;
  const program = dryholdProgram((settled) => (status = settled)).version(
    ownVersion(),
    '--version',
    'print the version',
  );
  endWhenTold();
  process.stdout.on('error', letGoOfReader);
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    return settleError(error);
  }
}

function settleError(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitStatus.done : exitStatus.usage;
  if (error instanceof DryholdError) {
    remark(`dryhold: ${visibleText(error.message)}`);
    return error.exitStatus;
  }
  if (isSystemError(error)) {
    if (error.code === 'EPIPE') return exitStatus.done;
    remark(`dryhold: ${error.path ?? 'the output'}: cannot be used: ${machineProblem(error) ?? error.message}`);
    return exitStatus.unreadable;
  }
  remark(`dryhold: a bug: ${error instanceof Error ? error.message : String(error)}`);
  if (process.env.DRYHOLD_DEBUG !== undefined && error instanceof Error) remark(error.stack ?? '');
  else remark('dryhold: set DRYHOLD_DEBUG=1 to see where');
  return exitStatus.bug;
}

interface SystemError extends Error {
  readonly code: string;
  readonly syscall: string;
  readonly path?: string;
}

/** Whether the machine refused a file, as against a fault of the program. */
function isSystemError(error: unknown): error is SystemError {
  return error instanceof Error && 'syscall' in error && 'code' in error && typeof error.code === 'string';
}

/**
 * Whoever reads our output may stop reading, such as `head`: no error, and nothing more to tell. Where it cannot be written,
 * as on a full disk, the status says so, whatever the command itself came to.
 */
function letGoOfReader(error: Error): void {
  if (!isSystemError(error)) throw error;
  if (error.code !== 'EPIPE') process.exitCode = settleError(error);
}

function ownVersion(): string {
  const manifest = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
    version: string;
  };
  return manifest.version;
}
