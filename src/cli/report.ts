import { type AddCommand, Progress, say, sayJson } from './context.ts';
import { datesOption, type ReaderOptions, readerOf } from './reader-option.ts';
import { withStore } from './with-store.ts';

/** `dryhold report`: the readers' pages. */
export const addReport: AddCommand = (program) => {
  program
    .command('report')
    .summary('write the pages of the service manager, the trainer and the owner')
    .description(
      'Writes a folder of pages that work offline, by what was judged last: a start page with whom to call first, one page for the service manager, the trainer and the owner, coaching sheets for technicians and crews, and a page for each job worth opening. Prints the path of the start page.',
    )
    .option('--out <folder>', 'where the pages go', './dryhold-report')
    .addOption(datesOption())
    .addHelpText('after', '\nexamples:\n  dryhold report\n  dryhold report --out monday --units si --dates iso --codes')
    .action(async (options: ReaderOptions & { out: string }) => {
      const { codes = false } = options;
      const { report } = await import('../steps/report.ts');
      const progress = new Progress('reporting', options);
      const result = await withStore(options, 'read', (store) =>
        report(store, options.out, {
          reader: readerOf(options),
          codes,
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (options.json) sayJson(result);
      else say(result.page);
    });
};
