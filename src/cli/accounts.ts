import { Option } from 'commander';
import type { GwpVintage } from '../accounts/gwp.ts';
import { type Grouping, groupings } from '../accounts/booked-ledger.ts';
import { DryholdError } from '../errors.ts';
import type { AccountsReport } from '../pages/accounts-data.ts';
import { addVintage } from './account-options.ts';
import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { isoDate } from './iso-date.ts';
import { withStore } from './with-store.ts';

interface AccountsCommandOptions extends CommonOptions {
  readonly by?: Grouping;
  readonly csv?: boolean;
  readonly from?: string;
  readonly to?: string;
  readonly gwp: GwpVintage;
}

/** `dryhold accounts`: where the refrigerant goes. */
export const addAccounts: AddCommand = (program) => {
  const command = program
    .command('accounts')
    .summary('where the refrigerant goes: bought, charged, recovered, unexplained')
    .description(
      'Balances every cylinder by its weighings: what was in it, what left it, what came back, what is missing beyond what the scale explains; by refrigerant, month, crew, technician, site or cylinder. Holds what was charged against what was needed, and adds up what callbacks cost. What cannot be accounted is listed, never guessed. With a cylinder, its ledger, weighing by weighing.',
    )
    .argument('[cylinder]', 'one cylinder, weighing by weighing')
    .addOption(new Option('--by <what>', 'only the balances by this').choices(groupings))
    .option('--csv', 'those balances as CSV, for a spreadsheet (by refrigerant, where --by says nothing else)')
    .option('--from <day>', 'first day that is looked at (default: the first on record)', isoDate)
    .option('--to <day>', 'last day that is looked at (default: the last on record)', isoDate);
  addVintage(command)
    .addHelpText(
      'after',
      `
examples:
  dryhold accounts
  dryhold accounts --from 2026-01-01 --to 2026-06-30 --units si
  dryhold accounts --by crew
  dryhold accounts --by cylinder --csv > cylinders.csv
  dryhold accounts cylinder-00012`,
    )
    .action(async (cylinder: string | undefined, options: AccountsCommandOptions) => {
      const { codes = false, json = false, csv = false, units, by, from, to, gwp: vintage } = options;
      const wrong =
        json && csv
          ? '--json and --csv are two ways to write one thing; give one of them'
          : cylinder !== undefined && (csv || by !== undefined || from !== undefined || to !== undefined)
            ? 'the ledger of one cylinder is whole; leave out --by, --csv, --from and --to'
            : from !== undefined && to !== undefined && from > to
              ? `--from ${from} lies after --to ${to}`
              : undefined;
      if (wrong !== undefined) throw new DryholdError('bad-usage', { problem: wrong });
      const progress = new Progress('booking', options);
      if (cylinder !== undefined) {
        const [{ cylinderReport }, { cylinderText }] = await Promise.all([
          import('../steps/cylinder-report.ts'),
          import('./cylinder-text.ts'),
        ]);
        const report = await withStore(options, 'read', (store) => cylinderReport(store, cylinder, codes));
        if (json) sayJson(report);
        else say(cylinderText(report, units));
        return;
      }
      const [{ accountsReport }, { accountsText, balancesText }, { balancesCsv }] = await Promise.all([
        import('../steps/accounts-report.ts'),
        import('./accounts-text.ts'),
        import('./balances-csv.ts'),
      ]);
      const report = await withStore(options, 'read', (store) =>
        accountsReport(store, {
          codes,
          vintage,
          from,
          to,
          // For people only what they are shown is reckoned: there may be as many sites as jobs.
          ...(json && by === undefined ? {} : { by: by === undefined ? [] : [by] }),
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (json) sayJson(by === undefined ? report : balancesOf(report, by));
      else if (csv) say(balancesCsv(report, by ?? 'refrigerant', units));
      else if (by !== undefined) say(balancesText(report, by, units));
      else say(accountsText(report, units));
    });
};

/** Balances by one thing, with what they are told by. */
function balancesOf({ period, lastDay, vintage, vintageNotes, lines, apart }: AccountsReport, by: Grouping) {
  return { period, lastDay, vintage, vintageNotes, by, lines: lines[by], apart };
}
