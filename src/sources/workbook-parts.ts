import { statSync } from 'node:fs';
import yauzl from 'yauzl';

/** Larger files, or files that unpack to more, are refused: a workbook's texts are held in memory [bytes]. */
const mostBytes = 128 * 1024 * 1024;
const mostUnpackedBytes = 1024 * 1024 * 1024;
/** What a sheet may have (ECMA-376). */
const mostRows = 1_048_576;
/** Parts that are held as a tree may have so many tags: a million texts of their own, and some hundred bytes of memory each. */
const mostTags = 5_000_000;
/** A longer stretch without a tag, or within one, is read again and again by the reader [bytes]. */
const longestStretch = 4 * 1024 * 1024;

/** What no reader of sheets looks into. */
const pictures = /\.(png|jpe?g|gif|bmp|tiff?|emf|wmf|svg|bin)$/i;
const sheets = /^xl\/worksheets\/[^/]+\.xml$/i;
const relations = 'xl/_rels/workbook.xml.rels';

/**
 * Refuses a workbook before the reader sees it: by what its directory says, then by what its parts hold, each looked through
 * once without keeping it. A hundred kilobytes may unpack to a billion rows, or to a comment without an end.
 *
 * @throws Error that says what is wrong
 */
export async function checkWorkbook(path: string): Promise<void> {
  if (statSync(path).size > mostBytes) throw new Error(`it is larger than ${mostBytes / 1024 ** 2} MiB`);
  await withArchive(path, async (archive) => {
    let unpacked = 0;
    for await (const { uncompressedSize } of archive.eachEntry()) unpacked += uncompressedSize;
    if (unpacked > mostUnpackedBytes) throw new Error(`it unpacks to more than ${mostUnpackedBytes / 1024 ** 2} MiB`);
  });
  await withArchive(path, async (archive) => {
    const names = new Set<string>();
    for await (const entry of archive.eachEntry()) {
      const name = entry.fileName;
      if (names.has(name)) throw new Error(`it holds ${name} twice`);
      names.add(name);
      if (pictures.test(name)) continue;
      const part = new PartScan(name);
      for await (const block of await archive.openReadStreamPromise(entry)) part.take(block as Buffer);
      part.end();
    }
  });
}

async function withArchive(path: string, work: (archive: yauzl.ZipFile) => Promise<void>): Promise<void> {
  const archive = await yauzl.openPromise(path);
  try {
    await work(archive);
  } finally {
    archive.close();
  }
}

/** Counts the tags of a part as it passes. */
class PartScan {
  readonly #name: string;
  readonly #isSheet: boolean;
  #tags = 0;
  #rows = 0;
  #sinceOpened = 0;
  #sinceClosed = 0;
  /** How far the word "row" at the beginning of a tag's name is met. */
  #met = -1;
  #text = '';

  constructor(name: string) {
    this.#name = name;
    this.#isSheet = sheets.test(name);
  }

  take(block: Buffer): void {
    let [tags, rows, sinceOpened, sinceClosed, met] = [0, 0, this.#sinceOpened, this.#sinceClosed, this.#met];
    for (let at = 0; at < block.length; at += 1) {
      const byte = block[at];
      sinceOpened += 1;
      sinceClosed += 1;
      if (met >= 0) {
        met = byte === row[met] ? met + 1 : -1;
        if (met === row.length) {
          rows += 1;
          met = -1;
        }
      }
      if (byte === 60) {
        tags += 1;
        sinceOpened = 0;
        met = 0;
      } else if (byte === 62) sinceClosed = 0;
      else if (byte === 58) met = 0;
    }
    this.#tags += tags;
    this.#rows += rows;
    [this.#sinceOpened, this.#sinceClosed, this.#met] = [sinceOpened, sinceClosed, met];
    this.#check();
    if (this.#name === relations && this.#text.length < mostTags) this.#text += block.toString('latin1');
  }

  end(): void {
    for (const [tag] of this.#text.matchAll(/<[^>]*>/g)) {
      const target = /Target\s*=\s*["']([^"']*)/.exec(tag)?.[1] ?? '';
      const isTree = /(sharedStrings|styles)["']/.test(tag);
      if (isTree || /worksheet["']/.test(tag)) {
        const isRight = /^[\w./ -]*\.xml$/i.test(target) && !(isTree && /worksheets\//i.test(target));
        if (!isRight) throw new Error(`its part ${target} is called as no such part is`);
      }
    }
  }

  #check(): void {
    if (Math.max(this.#sinceOpened, this.#sinceClosed) > longestStretch)
      throw new Error(`${this.#name} has a text, a comment or a tag of more than ${longestStretch / 1024 ** 2} MiB`);
    if (this.#rows > mostRows) throw new Error(`${this.#name} has more than ${mostRows} rows`);
    if (!this.#isSheet && this.#tags > mostTags) throw new Error(`${this.#name} has more than ${mostTags} tags`);
  }
}

const row = Buffer.from('row');
