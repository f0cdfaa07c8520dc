import { Option } from 'commander';
import { DryholdError } from '../errors.ts';
import { inputTables, outputTables, tableNamed } from '../records/tables.ts';
import type { ExportFormat } from '../store/export-table.ts';
import { assertWritable } from '../store/whole-file.ts';
import { type AddCommand, type CommonOptions, remark, sayJson } from './context.ts';
import { withStore } from './with-store.ts';

interface ExportCommandOptions extends CommonOptions {
  readonly format: ExportFormat;
  readonly out?: string;
  readonly policy?: string;
}

const formats: readonly ExportFormat[] = ['csv', 'ndjson', 'parquet', 'arrow'];

const tableNames = [...outputTables, ...inputTables].map((table) => table.name).join(', ');

/** `dryhold export`: any table of the store, to standard output or a file. */
export const addExport: AddCommand = (program) => {
  program
    .command('export')
    .summary('write a table of the store')
    .description(`Writes a table, sorted by its key. Tables: ${tableNames}.`)
    .argument('<table>', 'name of a table')
    .addOption(new Option('--format <format>', 'how to write it').choices(formats).default('csv'))
    .option('--out <file>', 'where to; standard output without it')
    .option('--policy <id>', 'for findings: the policy that judged; the one that judged last without it')
    .addHelpText(
      'after',
      `
examples:
  dryhold export findings --out findings.csv
  dryhold export readings --format parquet --out readings.parquet
  dryhold export jobs --format ndjson --codes   technicians by code, free text left out`,
    )
    .action(async (name: string, options: ExportCommandOptions) => {
      const table = tableNamed(name);
      if (table === undefined) throw new DryholdError('unknown-table', { table: name, known: tableNames });
      if (options.codes && table.name === 'rejects') {
        const problem = 'rejects holds refused rows word for word, and so perhaps names; export it without --codes';
        throw new DryholdError('bad-usage', { problem });
      }
      const [{ makePersonCodes }, { policyJudged }, { exportTable }] = await Promise.all([
        import('../steps/people-names.ts'),
        import('../steps/policy-judged.ts'),
        import('../store/export-table.ts'),
      ]);
      await withStore(options, 'read', async (store) => {
        if (options.out !== undefined) assertWritable(options.out);
        if (options.codes) await makePersonCodes(store);
        const policyId = table.name === 'findings' ? (await policyJudged(store, options.policy)).id : undefined;
        await exportTable(store, table, { format: options.format, out: options.out, policyId, codes: options.codes });
      });
      if (options.out === undefined) return;
      if (options.json) sayJson({ table: name, file: options.out });
      else if (!options.quiet) remark(`${name} written to ${options.out}`);
    });
};
