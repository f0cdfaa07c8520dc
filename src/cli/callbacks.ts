import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { withStore } from './with-store.ts';
import { wholeNumber } from './whole-number.ts';

interface CallbacksOptions extends CommonOptions {
  readonly horizon?: number;
}

/** `dryhold callbacks`: which callbacks trace where, and what foretells them. */
export const addCallbacks: AddCommand = (program) => {
  program
    .command('callbacks')
    .summary('which callbacks were ours, what foretells them')
    .description(
      'Traces each callback to the work that it can be laid to; says what they were probably about and what they cost, how long flagged and clean jobs go without one, and which findings foretell them.',
    )
    .option('--horizon <days>', 'how long after a job a callback is laid to it (default: 365)', wholeNumber)
    .addHelpText(
      'after',
      `
examples:
  dryhold callbacks
  dryhold callbacks --horizon 730
  dryhold callbacks --codes          people and crews by code, free text left out
  dryhold callbacks --json           every callback with its job and findings`,
    )
    .action(async (options: CallbacksOptions) => {
      const { codes = false, json = false, units, horizon } = options;
      const [{ callbackReport }, { callbacksText }] = await Promise.all([
        import('../steps/callback-report.ts'),
        import('./callbacks-text.ts'),
      ]);
      const progress = new Progress('reckoning', options);
      const report = await withStore(options, 'read', (store) =>
        callbackReport(store, {
          codes,
          ...(horizon === undefined ? {} : { horizonDays: horizon }),
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (json) sayJson(report);
      else say(callbacksText(report, units));
    });
};
