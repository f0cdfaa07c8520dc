import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { withStore } from './with-store.ts';
import { wholeNumber } from './whole-number.ts';

interface RiskCommandOptions extends CommonOptions {
  readonly horizon?: number;
  readonly window?: number;
  readonly top?: number;
}

/** Jobs that are listed for a terminal. */
const usualTop = 10;

/** `dryhold risk`: which open jobs are likeliest to call back. */
export const addRisk: AddCommand = (program) => {
  program
    .command('risk')
    .summary('which open jobs are likeliest to call back')
    .description(
      'Lists the open jobs by the risk of a callback that commissioning could have caused, each with the findings that put it there and what to check on site; and says how right such lists would have been before.',
    )
    .option('--top <n>', `how many jobs (default: ${usualTop}, with --json all)`, wholeNumber)
    .option('--window <days>', 'over how many days (default: 90)', wholeNumber)
    .option('--horizon <days>', 'how long after a job a callback is laid to it (default: 365)', wholeNumber)
    .addHelpText(
      'after',
      '\nexamples:\n  dryhold risk\n  dryhold risk --top 25 --window 30\n  dryhold risk --codes --json',
    )
    .action(async (options: RiskCommandOptions) => {
      const { codes = false, json = false, units, horizon, window, top = json ? undefined : usualTop } = options;
      const [{ riskReport }, { riskText }] = await Promise.all([
        import('../steps/risk-report.ts'),
        import('./risk-text.ts'),
      ]);
      const progress = new Progress('reckoning', options);
      const report = await withStore(options, 'read', (store) =>
        riskReport(store, {
          codes,
          units,
          ...(top === undefined ? {} : { top }),
          ...(window === undefined ? {} : { windowDays: window }),
          ...(horizon === undefined ? {} : { horizonDays: horizon }),
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (json) sayJson(report);
      else say(riskText(report));
    });
};
