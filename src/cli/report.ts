import { type AddCommand, type CommonOptions, say, sayJson } from './context.ts';
import { withStore } from './with-store.ts';

/** `dryhold report`: the readers' pages. */
export const addReport: AddCommand = (program) => {
  program
    .command('report')
    .summary('write the pages of the service manager and the owner')
    .description(
      "Writes the service manager's page and the owner's: one file each, offline, with what was judged last. Prints the path of the first, from which the other is linked.",
    )
    .option('--out <folder>', 'where the pages go', './dryhold-report')
    .addHelpText('after', '\nexamples:\n  dryhold report\n  dryhold report --out monday --units si --codes')
    .action(async (options: CommonOptions & { out: string }) => {
      const { units, codes = false } = options;
      const { report } = await import('../steps/report.ts');
      const result = await withStore(options.store, 'read', (store) => report(store, options.out, { units, codes }));
      if (options.json) sayJson(result);
      else say(result.page);
    });
};
