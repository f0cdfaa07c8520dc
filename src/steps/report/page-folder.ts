import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { jobsFolder, sheetsFolder } from '../../pages/report-places.ts';
import { writeWholeText } from '../../store/whole-file.ts';

/** The list of the pages that are many, by which the next report knows which of them are its own to remove. */
const listName = '.dryhold-pages';
const own = new RegExp(`^(?:${jobsFolder}|${sheetsFolder})/[a-z0-9-]+\\.html$`);

/**
 * The folder of a report. Each page comes into its place whole; pages of jobs and people of an earlier report, that this one has no more, go at the
 * end. Whatever else lies there stays.
 */
export class PageFolder {
  readonly #folder: string;
  readonly #earlier: ReadonlySet<string>;
  readonly #written = new Set<string>();

  private constructor(folder: string, earlier: ReadonlySet<string>) {
    this.#folder = folder;
    this.#earlier = earlier;
  }

  /**
   * Opens a folder, and makes it where it is not there.
   *
   * @param files pages in folders that will be written
   */
  static async open(folder: string, files: readonly string[]): Promise<PageFolder> {
    for (const each of [sheetsFolder, jobsFolder]) mkdirSync(join(folder, each), { recursive: true });
    const earlier = new Set(readList(folder));
    // Known as ours before they are there: whatever ends this run, the next one finds them.
    await writeWholeText(join(folder, listName), listText([...earlier, ...files]));
    return new PageFolder(folder, earlier);
  }

  /** Writes one page. */
  async write(file: string, text: string): Promise<void> {
    const path = join(this.#folder, file);
    mkdirSync(dirname(path), { recursive: true });
    await writeWholeText(path, text);
    this.#written.add(file);
  }

  /** Removes pages of an earlier report that were not written again. */
  async close(): Promise<void> {
    for (const file of this.#earlier) if (!this.#written.has(file)) rmSync(join(this.#folder, file), { force: true });
    await writeWholeText(join(this.#folder, listName), listText([...this.#written].filter((file) => own.test(file))));
  }
}

function listText(files: readonly string[]): string {
  return `${[...new Set(files)].sort().join('\n')}\n`;
}

function readList(folder: string): string[] {
  const path = join(folder, listName);
  if (!existsSync(path)) return [];
  return readFileSync(path, 'utf8')
    .split('\n')
    .filter((file) => own.test(file));
}
