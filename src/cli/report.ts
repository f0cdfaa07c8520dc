import { Option } from 'commander';
import { type ReportFormat, reportFormats } from '../steps/report/report-form.ts';
import { type AddCommand, Progress, remark, say, sayJson } from './context.ts';
import { countOf } from './ingest-text.ts';
import { assertPrinted, type PaperOptions, paperOf, paperOption } from './page-output.ts';
import { datesOption, type ReaderOptions, readerOf } from './reader-option.ts';
import { withStore } from './with-store.ts';

interface ReportCommandOptions extends ReaderOptions, PaperOptions {
  readonly out: string;
  readonly format: ReportFormat;
  readonly specs?: boolean;
}

/** `dryhold report`: the readers' pages. */
export const addReport: AddCommand = (program) => {
  program
    .command('report')
    .summary('write the pages of the service manager, the trainer and the owner')
    .description(
      'Writes a folder of pages that work offline, by what was judged last: a start page with whom to call first, one page for the service manager, the trainer and the owner, coaching sheets for technicians and crews, and a page for each job worth opening. Prints the path of the start page. On paper, as PDF, it needs an installed chromium, Chrome or Edge; pictures of the charts need none.',
    )
    .option('--out <folder>', 'where the files go', './dryhold-report')
    .addOption(
      new Option(
        '--format <format>',
        'html: pages for a browser; pdf: the same pages on paper; png or svg: each chart of them as a picture, in charts/',
      )
        .choices(reportFormats)
        .default('html'),
    )
    .addOption(paperOption())
    .option(
      '--specs',
      'also each chart as a Vega-Lite specification with its data, in specs/, to be reworked elsewhere',
    )
    .addOption(datesOption())
    .addHelpText(
      'after',
      `
examples:
  dryhold report
  dryhold report --out monday --units si --dates iso --codes
  dryhold report --out paper --format pdf
  dryhold report --out slides --format png --specs`,
    )
    .action(async (options: ReportCommandOptions) => {
      const { codes = false, format, specs = false } = options;
      assertPrinted(options, format === 'pdf');
      const { report } = await import('../steps/report.ts');
      const progress = new Progress('reporting', options);
      const result = await withStore(options, 'read', (store) =>
        report(store, options.out, {
          reader: readerOf(options),
          codes,
          form: { format, specs },
          paper: paperOf(options),
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (options.json) return sayJson(result);
      if (codes && result.others > 0 && options.quiet !== true)
        remark(
          `${countOf(result.others, 'file')} of earlier reports in other formats stay in ${options.out}; made without --codes, they hold names`,
        );
      if (result.specs > 0) say(`${countOf(result.specs, 'specification')} of charts in ${options.out}/specs`);
      if (result.pages !== null) say(result.page);
      else
        say(
          result.pictures > 0
            ? `${countOf(result.pictures, 'picture')} of charts in ${result.page}`
            : 'no chart to draw',
        );
    });
};
