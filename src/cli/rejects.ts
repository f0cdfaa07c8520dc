import { DryholdError } from '../errors.ts';
import type { RefusedKind } from '../steps/refused-rows.ts';
import { assertWritable } from '../store/whole-file.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, type CommonOptions, remark, say, sayJson } from './context.ts';
import { countOf } from './ingest-text.ts';
import { withStore } from './with-store.ts';

interface RejectsOptions extends CommonOptions {
  readonly file?: string;
  readonly out?: string;
}

/** `dryhold rejects`: what was refused, and why. */
export const addRejects: AddCommand = (program) => {
  program
    .command('rejects')
    .summary('what was refused, and why')
    .description(
      'Shows the rows and files that were refused, by file and reason, with the line and the text of the first of each. Mend the file or its map and ingest it again: only what is new is taken up.',
    )
    .option('--file <text>', 'only of files whose name holds this')
    .option('--out <file>', 'write every refused row to a CSV file, with its line and its text')
    .addHelpText(
      'after',
      `
examples:
  dryhold rejects
  dryhold rejects --file 2026-06
  dryhold rejects --out refused.csv`,
    )
    .action(async (options: RejectsOptions) => {
      if (options.codes) {
        const problem = 'rejects shows refused rows word for word, and so perhaps names; run it without --codes';
        throw new DryholdError('bad-usage', { problem });
      }
      const { refusedRows, writeRefused } = await import('../steps/refused-rows.ts');
      await withStore(options, 'read', async (store) => {
        const kinds = await refusedRows(store, options.file);
        if (options.json) sayJson(kinds);
        else if (options.out === undefined || options.quiet !== true) tellPeople(kinds, options);
        if (options.out === undefined) return;
        assertWritable(options.out);
        await writeRefused(store, options.out, options.file);
        if (!options.quiet) remark(`every one of them written to ${options.out}`);
      });
    });
};

function tellPeople(kinds: readonly RefusedKind[], { out, quiet }: RejectsOptions): void {
  if (kinds.length === 0) return say('nothing was refused');
  for (const file of new Set(kinds.map((kind) => kind.file))) {
    say(visibleText(file));
    for (const kind of kinds.filter((each) => each.file === file)) tellKind(kind);
  }
  const isMore = kinds.some(({ rows, first }) => rows > first.length);
  if (isMore && out === undefined && !quiet)
    remark('all of them, row by row, into a file: dryhold rejects --out refused.csv');
}

function tellKind({ table_name: table, rows, detail, first }: RefusedKind): void {
  if (first[0]?.line === 0) return say(visibleText(`  the whole file: ${detail}`));
  say(visibleText(`  ${table ?? 'no table'}: ${countOf(rows, 'row')}: ${rows === 1 ? detail : `such as ${detail}`}`));
  for (const { line, raw } of first) say(`    line ${line}: ${shortened(raw ?? '')}`);
  if (rows > first.length) say(`    and ${rows - first.length} more`);
}

/** A row's text on one line of a terminal, without what could steer it. */
function shortened(raw: string): string {
  const plain = visibleText(raw.replaceAll(/\p{Cc}/gu, ' '));
  return plain.length > 100 ? `${plain.slice(0, 99)}…` : plain;
}
