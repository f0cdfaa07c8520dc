import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { DryholdError } from '../errors.ts';
import { type AddCommand, exitStatus, remark } from './context.ts';
import { addDemo } from './demo.ts';
import { addExport } from './export.ts';
import { addIngest } from './ingest.ts';
import { addJudge } from './judge.ts';
import { addQuery } from './query.ts';
import { addReport } from './report.ts';
import { addShow } from './show.ts';
import { addSimulate } from './simulate.ts';

/** Every command, in the order in which help lists them. */
const commands: readonly AddCommand[] = [
  addDemo,
  addIngest,
  addJudge,
  addReport,
  addShow,
  addExport,
  addQuery,
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
    .helpCommand(false)
    .exitOverride()
    .configureOutput({ writeErr: (text) => remark(text.trimEnd()) })
    .configureHelp({ styleTitle: (title) => title.toLowerCase() });
  for (const add of commands) add(program, (settled) => (status = settled));
  for (const command of program.commands) addCommonOptions(command);
  program.addHelpText(
    'after',
    `
examples:
  dryhold demo                          simulate an invented shop, judge it, report
  dryhold ingest exports/               take a folder of files into the store
  dryhold judge && dryhold report       judge what came in, write the pages
  dryhold show J-0001                   one job with its evidence

Dry nitrogen only, never oxygen or air. Local codes and certified technicians decide; no output says that a system is safe.`,
  );
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    return settleError(error);
  }
}

function addCommonOptions(command: Command): void {
  command.exitOverride();
  command.configureOutput({ writeErr: (text) => remark(text.trimEnd()) });
  command.configureHelp({ styleTitle: (title) => title.toLowerCase() });
  command
    .option('--store <folder>', 'where the store lies', './dryhold-store')
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
  if (error instanceof InvalidArgumentError) return exitStatus.usage;
  if (error instanceof DryholdError) {
    remark(`dryhold: ${error.message}`);
    return error.exitStatus;
  }
  remark(`dryhold: a bug: ${error instanceof Error ? error.message : String(error)}`);
  if (process.env.DRYHOLD_DEBUG !== undefined && error instanceof Error) remark(error.stack ?? '');
  else remark('dryhold: set DRYHOLD_DEBUG=1 to see where');
  return exitStatus.bug;
}
