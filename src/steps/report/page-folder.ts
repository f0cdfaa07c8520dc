import { appendFileSync, existsSync, mkdirSync, readFileSync, rmdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { DryholdError, machineProblem } from '../../errors.ts';
import { chartsFolder, jobsFolder, reportPlaces, sheetsFolder, specsFolder } from '../../pages/report-places.ts';
import { writeWhole, writeWholeText } from '../../store/whole-file.ts';

/** The list of the files that are many, by which the next report knows which of them are its own to remove. */
const listName = '.dryhold-pages';
const name = '[a-z0-9-]+';
const own = new RegExp(
  `^(?:(?:${jobsFolder}|${sheetsFolder})/${name}\\.(?:html|pdf)|(?:${chartsFolder}|${specsFolder})/(?:(?:${jobsFolder}|${sheetsFolder})/)?${name}/${name}\\.(?:png|svg|vl\\.json))$`,
);

/**
 * The folder of a report. Each file comes into its place whole; pages of jobs and people of an earlier report, and what their charts became, that
 * this one has no more, go at the end, as far as they are of a kind that this one writes. Whatever else lies there stays.
 */
export class PageFolder {
  readonly #folder: string;
  readonly #endings: readonly string[];
  readonly #listed: Set<string>;
  readonly #written = new Set<string>();

  private constructor(folder: string, endings: readonly string[]) {
    this.#folder = folder;
    this.#endings = endings.map((ending) => `.${ending}`);
    this.#listed = new Set(readList(folder));
  }

  /**
   * Opens a folder, and makes it where it is not there.
   *
   * @param endings of the files that will be written: `html`
   */
  static open(folder: string, endings: readonly string[]): PageFolder {
    const hasPages = endings.some((ending) => ending === 'html' || ending === 'pdf');
    for (const each of hasPages ? [sheetsFolder, jobsFolder] : ['.'])
      mkdirSync(join(folder, each), { recursive: true });
    return new PageFolder(folder, endings);
  }

  /** Writes one file. */
  async write(file: string, content: string | Uint8Array): Promise<void> {
    const path = join(this.#folder, file);
    mkdirSync(dirname(path), { recursive: true });
    if (own.test(file) && !this.#listed.has(file)) {
      // Known as ours before it is there: whatever ends this run, the next one finds it.
      await this.#list(file);
      this.#listed.add(file);
    }
    await writeWhole(path, (to) => writeFileSync(to, content));
    this.#written.add(file);
  }

  async #list(file: string): Promise<void> {
    const path = join(this.#folder, listName);
    if (!existsSync(path)) return writeWholeText(path, `${file}\n`);
    try {
      // A killed run may have left half a line.
      appendFileSync(path, `\n${file}\n`);
    } catch (error) {
      const problem = machineProblem(error);
      throw problem === undefined ? error : new DryholdError('output-unwritable', { path, problem }, error);
    }
  }

  /**
   * Removes files of an earlier report that were not written again.
   *
   * @returns how many files of reports in other formats stay
   */
  async close(): Promise<number> {
    const isOwn = (file: string): boolean => this.#endings.some((ending) => file.endsWith(ending));
    const gone = new Set([...this.#listed].filter((file) => !this.#written.has(file) && isOwn(file)));
    for (const file of gone) {
      rmSync(join(this.#folder, file), { force: true });
      if (!file.startsWith(`${chartsFolder}/`) && !file.startsWith(`${specsFolder}/`)) continue;
      removeIfEmpty(join(this.#folder, dirname(file)));
    }
    // What another report of the same folder wrote meanwhile stays known.
    const listed = new Set([...readList(this.#folder), ...this.#listed].filter((file) => !gone.has(file)));
    await writeWholeText(join(this.#folder, listName), `${[...listed].sort().join('\n')}\n`);
    return [...listed, ...readersFiles].filter((file) => !isOwn(file) && existsSync(join(this.#folder, file))).length;
  }
}

/** The pages that are few, in either format. */
const readersFiles = Object.values(reportPlaces).flatMap(({ file }) => [file, file.replace(/html$/, 'pdf')]);

function readList(folder: string): string[] {
  const path = join(folder, listName);
  if (!existsSync(path)) return [];
  return readFileSync(path, 'utf8')
    .split('\n')
    .filter((file) => own.test(file));
}

function removeIfEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // Something lies there, or it is gone.
  }
}
