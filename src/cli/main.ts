import { readFileSync } from 'node:fs';
import { Command, CommanderError, Option } from 'commander';
import { DryholdError, machineProblem } from '../errors.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, exitStatus, remark } from './context.ts';
import { addAccounts } from './accounts.ts';
import { addCallbacks } from './callbacks.ts';
import { addCoach } from './coach.ts';
import { addDemo } from './demo.ts';
import { addDue } from './due.ts';
import { addExport } from './export.ts';
import { addFleet } from './fleet.ts';
import { addIngest } from './ingest.ts';
import { endWhenTold } from './interruption.ts';
import { addJudge } from './judge.ts';
import { addLeaks } from './leaks.ts';
import { addMap } from './map.ts';
import { addNotebook } from './notebook.ts';
import { addPlan } from './plan.ts';
import { addQuery } from './query.ts';
import { addRejects } from './rejects.ts';
import { addReport } from './report.ts';
import { addRisk } from './risk.ts';
import { addSaturation } from './saturation.ts';
import { addShow } from './show.ts';
import { addSimulate } from './simulate.ts';

/** Every command, in the order in which help lists them. */
const commands: readonly AddCommand[] = [
  addDemo,
  addMap,
  addIngest,
  addRejects,
  addJudge,
  addReport,
  addShow,
  addFleet,
  addCoach,
  addCallbacks,
  addRisk,
  addAccounts,
  addLeaks,
  addDue,
  addExport,
  addQuery,
  addNotebook,
  addSaturation,
  addPlan,
  addSimulate,
];

/**
 * Runs the command line.
 *
 * @param argv arguments after the program's name
 * @returns the exit status: 0 done, 1 done with something refused or found, 2 wrong usage, 3 unreadable, 70 a bug
 */
export async function main(argv: string[]): Promise<number> {
  let status: number = exitStatus.done;
  const program = new Command('dryhold')
    .description(
      'Turns the exported job logs of air-conditioning and heat-pump crews into judgement: which jobs were not dry, tight and rightly charged, why, and whose.',
    )
    .version(ownVersion(), '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command');
  configure(program);
  endWhenTold();
  process.stdout.on('error', letGoOfReader);
  for (const add of commands) add(program, (settled) => (status = settled));
  for (const command of program.commands) {
    configure(command);
    addCommonOptions(command);
  }
  program.addHelpText(
    'after',
    `
examples:
  dryhold demo                          simulate an invented shop, judge it, report
  dryhold ingest exports/               take a folder of files into the store
  dryhold judge && dryhold report       judge what came in, write the pages
  dryhold show J-1042                   one job with its evidence

Dry nitrogen only, never oxygen or air. Local codes and certified technicians decide; no output says that a system is safe.`,
  );
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    return settleError(error);
  }
}

/** Wrong usage is told in one line, with where to read on; the help itself only where somebody asks for it. */
function configure(command: Command): void {
  const path = command.parent === null ? command.name() : `${command.parent.name()} ${command.name()}`;
  command
    .exitOverride()
    .configureHelp({ styleTitle: (title) => title.toLowerCase() })
    .configureOutput({
      // What was typed may hold anything that a terminal obeys.
      writeErr: (text) => remark(text.trimEnd()),
      outputError: (text, write) =>
        write(
          `${text
            .trim()
            .replace(/^error: /, 'dryhold: ')
            .replace(/\.$/, '')}; see: ${path} --help`,
        ),
    });
}

/** Commands that make a store of their own or none: they take --store, as every command does, and need not show it. */
const storeless: ReadonlySet<string> = new Set(['demo', 'map', 'plan', 'saturation', 'simulate']);

function addCommonOptions(command: Command): void {
  command
    .helpOption('-h, --help', 'print this help')
    .optionsGroup('options of every command:')
    .addOption(
      new Option('--store <folder>', 'where the store lies')
        .default('./dryhold-store')
        .hideHelp(storeless.has(command.name())),
    )
    .option('--json', 'results as JSON, for machines')
    .addOption(
      new Option('--units <system>', 'ip (microns, ounces) or si (pascals, kilograms)')
        .choices(['ip', 'si'])
        .default('ip'),
    )
    .option('--codes', 'people by code instead of by name')
    .option('--quiet', 'no progress, no remarks');
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
