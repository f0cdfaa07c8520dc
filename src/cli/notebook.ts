import { holdsStore } from '../store/catalogue-path.ts';
import { type AddCommand, Progress, remark, say, sayJson } from './context.ts';
import { datesOption, type ReaderOptions, readerOf } from './reader-option.ts';
import { withStore } from './with-store.ts';

/** `dryhold notebook`: an analysis in Markdown, run on the store, as a page. */
export const addNotebook: AddCommand = (program) => {
  program
    .command('notebook')
    .summary('run analyses written in Markdown on the store, and write their pages')
    .description(
      'Runs notebooks on the store and writes a page of each that works offline: its text, what its cells show, and their code folded away. A notebook is a Markdown file whose ```ts cells together are one TypeScript module that imports from dryhold. It reads the store and changes nothing in it. But it is a program, and may do whatever you may: run only notebooks that you trust.',
    )
    .argument('<file...>', 'Markdown files')
    .option('--out <folder>', 'where the pages go', './dryhold-notebooks')
    .addOption(datesOption())
    .addHelpText(
      'after',
      `
A cell that fails ends it with status 3, with its file, line and reason; nothing of that notebook is
written, and a page that was there stays.

With --codes a notebook gets codes for people; one that shows a name or an id all the same is refused.

examples:
  dryhold notebook notebooks/a-crews-season.md
  dryhold notebook notebooks/*-refrigerant.md --units si --out pages
  dryhold notebook own.md --json        what its cells showed, for machines`,
    )
    .action(async (files: string[], options: ReaderOptions & { out: string }) => {
      const { codes = false, quiet = false } = options;
      const { writeNotebooks } = await import('../steps/notebook/write-notebooks.ts');
      // Each notebook opens the store by itself, if it wants one; one that somebody else uses is waited for here.
      if (holdsStore(options.store)) await withStore(options, 'read', () => Promise.resolve());
      const progress = new Progress('running', options);
      const results = await writeNotebooks(files, options.out, {
        reader: readerOf(options),
        storeFolder: options.store,
        codes,
        onProgress: (done, of, note) => progress.update(done, of, note),
        onPrinted: (text) => quiet || remark(text.trimEnd()),
      }).finally(() => progress.stop());
      if (!quiet) for (const warning of results.flatMap(({ warnings }) => warnings)) remark(warning);
      if (options.json) sayJson(results);
      else for (const { page } of results) say(page);
    });
};
