import { Command, Option } from 'commander';
import { type AddCommand, remark } from './context.ts';
import { addAccounts } from './accounts.ts';
import { addCallbacks } from './callbacks.ts';
import { addCoach } from './coach.ts';
import { addCompletion } from './completion.ts';
import { addDemo } from './demo.ts';
import { addDue } from './due.ts';
import { addExport } from './export.ts';
import { addFleet } from './fleet.ts';
import { addIngest } from './ingest.ts';
import { addJudge } from './judge.ts';
import { addLeaks } from './leaks.ts';
import { addMap } from './map.ts';
import { addNotebook } from './notebook.ts';
import { addPlan } from './plan.ts';
import { addQuery } from './query.ts';
import { addRejects } from './rejects.ts';
import { addReport } from './report.ts';
import { addRisk } from './risk.ts';
import { addRun } from './run.ts';
import { addSaturation } from './saturation.ts';
import { addShard } from './shard.ts';
import { addShow } from './show.ts';
import { addSimulate } from './simulate.ts';
import { waitOption } from './wait-option.ts';

/** Every command, in the order in which help lists them. */
const commands: readonly AddCommand[] = [
  addDemo,
  addMap,
  addIngest,
  addRejects,
  addJudge,
  addReport,
  addRun,
  addShow,
  addFleet,
  addCoach,
  addCallbacks,
  addRisk,
  addAccounts,
  addLeaks,
  addDue,
  addExport,
  addShard,
  addQuery,
  addNotebook,
  addSaturation,
  addPlan,
  addSimulate,
  addCompletion,
];

/**
 * The command line as it is declared: every command with its arguments and options. What is derived from it, such as the
 * schema of declared runs, begins here.
 *
 * @param settle takes the exit status of the command that was run
 */
export function dryholdProgram(settle: (status: number) => void = () => {}): Command {
  const program = new Command('dryhold')
    .description(
      'Turns the exported job logs of air-conditioning and heat-pump crews into judgement: which jobs were not dry, tight and rightly charged, why, and whose.',
    )
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command');
  configure(program);
  for (const add of commands) add(program, settle);
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
  return program;
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

/** Commands that make a store of their own or none: they take --store and --wait, as every command does, and need not show them. */
const storeless: ReadonlySet<string> = new Set(['completion', 'demo', 'map', 'plan', 'saturation', 'simulate']);

function addCommonOptions(command: Command): void {
  command
    .helpOption('-h, --help', 'print this help')
    .optionsGroup('options of every command:')
    .addOption(
      new Option('--store <folder>', 'where the store lies')
        .default('./dryhold-store')
        .hideHelp(storeless.has(command.name())),
    )
    .addOption(waitOption().hideHelp(storeless.has(command.name())))
    .option('--json', 'results as JSON, for machines')
    .addOption(
      new Option('--units <system>', 'ip (microns, ounces) or si (pascals, kilograms)')
        .choices(['ip', 'si'])
        .default('ip'),
    )
    .option('--codes', 'people by code instead of by name')
    .option('--quiet', 'no progress, no remarks');
}
