import { type AddCommand, Progress, say, sayJson } from './context.ts';
import { addPageOptions, assertPageOptions, isPageAsked, type PageOutputOptions, writePage } from './page-output.ts';
import { datesOption, type ReaderOptions, readerOf } from './reader-option.ts';
import { withStore } from './with-store.ts';

type CoachCommandOptions = ReaderOptions & PageOutputOptions;

/** `dryhold coach`: what to coach a technician or a crew on. */
export const addCoach: AddCommand = (program) => {
  const command = program
    .command('coach')
    .summary('what to coach a technician or a crew on')
    .description(
      'Makes a coaching sheet: the one to three skills in which more was found than on others’ jobs, how sure that is, the jobs that show it beside one without it, what to practise, what it would save in callbacks, and what is going well.',
    )
    .argument('<who>', 'a technician by name, id or code, or a crew');
  addPageOptions(command, 'the sheet with its recordings')
    .addOption(datesOption())
    .addHelpText(
      'after',
      `
examples:
  dryhold coach t03
  dryhold coach crew-birch --html birch.html
  dryhold coach crew-birch --pdf birch.pdf --paper a4
  dryhold coach P003 --codes         people and crews by code`,
    )
    .action(async (who: string, options: CoachCommandOptions) => {
      assertPageOptions(options);
      const { units, codes = false, json = false } = options;
      const { coachReport } = await import('../steps/coach-report.ts');
      const progress = new Progress('reckoning', options);
      const told = await withStore(options, 'read', (store) =>
        coachReport(store, who, { codes, onProgress: (done, of, note) => progress.update(done, of, note) }),
      ).finally(() => progress.stop());
      const report = told(units);
      if (isPageAsked(options)) {
        const { coachPage } = await import('../pages/coach-page.ts');
        await writePage(coachPage(told, readerOf(options)), options);
      }
      if (json) sayJson(report);
      else if (!isPageAsked(options)) {
        const { coachText } = await import('./coach-text.ts');
        say(coachText(report));
      }
    });
};
