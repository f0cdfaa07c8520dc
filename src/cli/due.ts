import type { LeakRateMethod } from '../accounts/appliance-leaks.ts';
import type { Jurisdiction } from '../accounts/rules/rule-set.ts';
import { DryholdError } from '../errors.ts';
import { addRuleOptions } from './account-options.ts';
import { type AddCommand, type CommonOptions, exitStatus, Progress, say, sayJson } from './context.ts';
import { wholeNumber } from './whole-number.ts';
import { withStore } from './with-store.ts';

interface DueCommandOptions extends CommonOptions {
  readonly csv?: boolean;
  readonly on?: string;
  readonly within: number;
  readonly calibration: number;
  readonly method: LeakRateMethod;
  readonly jurisdiction?: Jurisdiction;
  readonly failOnOverdue?: boolean;
}

/** `dryhold due`: deadlines. */
export const addDue: AddCommand = (program, settle) => {
  const command = program
    .command('due')
    .summary('what is due and overdue: repairs, verifications, inspections, reports, calibrations')
    .description(
      'Lists what rules ask for that is overdue, due soon, or cannot be told, and since when; and vacuum gauges whose calibration is due. No legal advice: check the text of the rule.',
    )
    .option('--within <days>', 'of what is due, only within so many days', wholeNumber, 90)
    .option(
      '--calibration <months>',
      'how long a calibration is good for (common practice, no source)',
      wholeNumber,
      12,
    )
    .option('--fail-on-overdue', 'exit status 1 where something is overdue')
    .option('--csv', 'the list as CSV, for a spreadsheet');
  addRuleOptions(command, 'today')
    .addHelpText(
      'after',
      `
examples:
  dryhold due
  dryhold due --on 2026-06-30 --within 30
  dryhold due --fail-on-overdue --quiet   for a script that raises an alarm
  dryhold due --csv > due.csv`,
    )
    .action(async (options: DueCommandOptions) => {
      const {
        json = false,
        csv = false,
        on,
        within,
        calibration,
        method,
        jurisdiction,
        failOnOverdue = false,
      } = options;
      if (json && csv)
        throw new DryholdError('bad-usage', {
          problem: '--json and --csv are two ways to write one thing; give one of them',
        });
      const [{ dueReport }, { dueReportText }, { dueCsv }] = await Promise.all([
        import('../steps/due-report.ts'),
        import('./due-text.ts'),
        import('./due-csv.ts'),
      ]);
      const progress = new Progress('reckoning', options);
      const report = await withStore(options, 'read', (store) =>
        dueReport(store, {
          method,
          on: on ?? today(),
          jurisdiction,
          withinDays: within,
          calibrationMonths: calibration,
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (json) sayJson(report);
      else say(csv ? dueCsv(report) : dueReportText(report));
      const isOverdue = [...report.open, ...report.calibrations].some(({ state }) => state === 'overdue');
      if (failOnOverdue && isOverdue) settle(exitStatus.refused);
    });
};

/** The day at this place. Other reports look back, and end with the record; what is due is due whether or not anything was written down since. */
function today(): string {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}
