import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { type AddCommand, type CommonOptions, exitStatus, sayJson } from './context.ts';
import { endBy, endInOrder } from './interruption.ts';
import { isoDate } from './iso-date.ts';
import type { RoundResult } from './run/run-round.ts';
import { usualWaitOfRun } from './wait-option.ts';

interface RunCommandOptions extends CommonOptions {
  readonly on?: string;
}

/** `dryhold run`: a declared run. */
export const addRun: AddCommand = (program, settle) => {
  program
    .command('run')
    .summary('carry out a declared run: steps, one after the other, with a log')
    .description(
      'Carries out the steps that a file declares, each one of these commands, and logs what each said and how it ended. What was refused or found is told, and the run goes on; where a step breaks off, the rest is not run. With "watch" in the file it is repeated whenever files come into folders, until Ctrl+C. Paths count from the folder of the file. The exit status is the most serious of the steps.',
    )
    .argument('<file>', 'a declared run, JSON; see pipelines/runs')
    .addOption(new Option('--on <day>', 'the day that {today}, {week} … mean (default: today)').argParser(isoDate))
    .addHelpText(
      'after',
      `
examples:
  dryhold run weekly.json
  dryhold run month-end.json --on 2026-12-01
  dryhold run drop-folder.json              goes on with what comes; ends with Ctrl+C
  dryhold run weekly.json --quiet           prints only what needs somebody`,
    )
    .action(async (path: string, options: RunCommandOptions, command: Command) => {
      const { json = false, quiet = false, on } = options;
      const [{ DateTime }, { readRun }, { holdRun }, { RunLog }, { runRound }, { watchRun }] = await Promise.all([
        import('luxon'),
        import('./run/declared-run.ts'),
        import('./run/run-lock.ts'),
        import('./run/run-log.ts'),
        import('./run/run-round.ts'),
        import('./run/watch-run.ts'),
      ]);
      const run = readRun(path, program, givenOptions(options, command));
      const letGo = await holdRun(path);
      const day = () => on ?? DateTime.now().toISODate();
      // What is for machines stands alone; why a step went wrong is told beside it.
      const to = json ? process.stderr : process.stdout;
      const log = new RunLog({ ...run, print: json || quiet ? 'alarms' : 'all', to, day });
      const stopped = new AbortController();
      endInOrder((signal) => stopped.abort(signal));
      const context = { log, stop: stopped.signal };
      log.note(`${run.name}: ${run.title}`);
      try {
        const isWatch = run.watch.length > 0;
        const onRound = ({ steps }: RoundResult) => json && sayJson(steps, isWatch ? 0 : 2);
        const status = isWatch
          ? await watchRun(run, { ...context, day, onRound })
          : await runRound(run, { ...context, day: day() }).then((result) => {
              onRound(result);
              return result.status;
            });
        settle(log.isBroken ? Math.max(status, exitStatus.unreadable) : status);
        // A watch has no other end than a signal.
        if (stopped.signal.aborted && !isWatch) endBy(stopped.signal.reason as NodeJS.Signals);
      } finally {
        letGo();
      }
    });
};

/** Options of every command that hold for all steps, as somebody gave them to the run, where a step says nothing of its own. */
function givenOptions(options: RunCommandOptions, command: Command): Record<string, string | true> {
  const isGiven = (name: string) => command.getOptionValueSource(name) === 'cli';
  return {
    ...(isGiven('store') && { store: resolve(options.store) }),
    wait: isGiven('wait') ? options.wait : usualWaitOfRun,
    ...(isGiven('units') && { units: options.units }),
    ...(options.codes && { codes: true as const }),
  };
}
