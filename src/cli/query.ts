import { DryholdError } from '../errors.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, type CommonOptions, say, sayJson } from './context.ts';
import { textTable } from './text-table.ts';
import { withStore } from './with-store.ts';

/** `dryhold query`: read-only SQL on the store. */
export const addQuery: AddCommand = (program) => {
  program
    .command('query')
    .summary('read-only SQL on the store')
    .description(
      'Runs one reading statement of SQL on the store. Tables: those of the bundle, facts, findings, rejects, sources, and the view readings.',
    )
    .argument('<sql>', 'a SELECT statement')
    .addHelpText(
      'after',
      `\nexamples:\n  dryhold query "select outcome, count(*) from findings group by all"\n  dryhold query "select * from facts limit 5" --json`,
    )
    .action(async (sql: string, options: CommonOptions) => {
      if (options.codes) {
        const problem =
          'query shows the store as it is, with names; leave out --codes, or use "dryhold export --codes"';
        throw new DryholdError('bad-usage', { problem });
      }
      if (sql.trim() === '') throw new DryholdError('query-refused', { problem: 'there is no statement in it' });
      const { runQuery } = await import('../store/run-query.ts');
      const { columns, rows } = await withStore(options, 'read', (store) => runQuery(store, sql));
      if (options.json) sayJson(rows);
      else
        say(
          textTable(
            columns.map(visibleText),
            rows.map((row) => columns.map((column) => visibleText(cellText(row[column])))),
          ),
        );
    });
};

function cellText(value: unknown): string {
  if (value === null || value === undefined) return '';
  return typeof value === 'string' ? value : JSON.stringify(value);
}
