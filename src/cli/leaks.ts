import type { LeakRateMethod } from '../accounts/appliance-leaks.ts';
import type { GwpVintage } from '../accounts/gwp.ts';
import type { Jurisdiction } from '../accounts/rules/rule-set.ts';
import { DryholdError } from '../errors.ts';
import { addRuleOptions, addVintage } from './account-options.ts';
import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { withStore } from './with-store.ts';

interface LeaksCommandOptions extends CommonOptions {
  readonly csv?: boolean;
  readonly on?: string;
  readonly method: LeakRateMethod;
  readonly jurisdiction?: Jurisdiction;
  readonly gwp: GwpVintage;
}

/** `dryhold leaks`: which systems leak, how much, past which trigger. */
export const addLeaks: AddCommand = (program) => {
  const command = program
    .command('leaks')
    .summary('leak rates beside triggers, and what is worth repairing')
    .description(
      'Takes the leak rate of every appliance by both published methods, says which rule applies to it and why, which rates are over their trigger, and which systems lose the most. With an appliance, everything that its rates rest on, step by step. No legal advice: check the text of the rule.',
    )
    .argument('[appliance]', 'one appliance, addition by addition')
    .option('--csv', 'appliances as CSV, for a spreadsheet');
  addVintage(addRuleOptions(command, 'the last day on record'))
    .addHelpText(
      'after',
      `
examples:
  dryhold leaks
  dryhold leaks --on 2026-03-31 --method rolling
  dryhold leaks --gwp ar5 --units si
  dryhold leaks --csv > leaks.csv
  dryhold leaks rack-02`,
    )
    .action(async (appliance: string | undefined, options: LeaksCommandOptions) => {
      const { json = false, csv = false, units, on, method, jurisdiction, gwp: vintage } = options;
      if (csv && (json || appliance !== undefined))
        throw new DryholdError('bad-usage', {
          problem: json
            ? '--json and --csv are two ways to write one thing; give one of them'
            : 'CSV is for the list of appliances; leave out the appliance, or --csv',
        });
      const progress = new Progress('reckoning', options);
      const asked = {
        vintage,
        method,
        on,
        jurisdiction,
        onProgress: (done: number, of: number, note: string) => progress.update(done, of, note),
      };
      if (appliance !== undefined) {
        const [{ applianceReport }, { applianceText }] = await Promise.all([
          import('../steps/leaks-report.ts'),
          import('./appliance-text.ts'),
        ]);
        const report = await withStore(options, 'read', (store) => applianceReport(store, appliance, asked)).finally(
          () => progress.stop(),
        );
        if (json) sayJson(report);
        else say(applianceText(report, units));
        return;
      }
      const [{ leaksReport }, { leaksText }, { leaksCsv }] = await Promise.all([
        import('../steps/leaks-report.ts'),
        import('./leaks-text.ts'),
        import('./leaks-csv.ts'),
      ]);
      const report = await withStore(options, 'read', (store) =>
        leaksReport(store, { ...asked, all: json || csv }),
      ).finally(() => progress.stop());
      if (json) sayJson(report);
      else say(csv ? leaksCsv(report, units) : leaksText(report, units));
    });
};
