import type { PagePrinter } from '../paper/page-printer.ts';
import { PageFolder } from './page-folder.ts';
import type { ReportFile } from './page-files.ts';
import type { ReportForm } from './report-form.ts';

/** So many pages are printed at once: the browser has a process for each. */
const mostAtOnce = 2;

/** Brings the files of a report into its folder, on paper where it is to be printed. */
export class ReportWriter {
  readonly #folder: PageFolder;
  readonly #printer: PagePrinter | undefined;
  readonly #printing = new Set<Promise<void>>();

  private constructor(folder: PageFolder, printer: PagePrinter | undefined) {
    this.#folder = folder;
    this.#printer = printer;
  }

  /**
   * Opens the folder.
   *
   * @param printer of a report on paper; it stays open
   */
  static open(outDir: string, { format, specs }: ReportForm, printer?: PagePrinter): ReportWriter {
    const endings = [format, ...(specs ? ['vl.json'] : [])];
    return new ReportWriter(PageFolder.open(outDir, endings), printer);
  }

  /** Writes files. Those that are printed are written some time later, at the latest when all is closed. */
  async write(files: readonly ReportFile[]): Promise<void> {
    for (const { file, content } of files) {
      if (this.#printer === undefined || typeof content !== 'string' || !file.endsWith('.html')) {
        await this.#folder.write(file, content);
        continue;
      }
      while (this.#printing.size >= mostAtOnce) await Promise.race(this.#printing);
      const printing = this.#print(this.#printer, file, content);
      this.#printing.add(printing);
      // A failure is heard where it is waited for.
      printing.then(
        () => this.#printing.delete(printing),
        () => undefined,
      );
    }
  }

  /**
   * Waits for what is printed, and removes what an earlier report left.
   *
   * @returns how many files of reports in other formats stay
   */
  async close(): Promise<number> {
    await Promise.all(this.#printing);
    return this.#folder.close();
  }

  async #print(printer: PagePrinter, file: string, page: string): Promise<void> {
    await this.#folder.write(file.replace(/\.html$/, '.pdf'), await printer.print(page));
  }
}
