import { closeSync, mkdtempSync, openSync, readSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { draftMap } from '../sources/draft/draft-map.ts';
import type { Draft, FoundTables } from '../sources/draft/draft.ts';
import { engineTables } from '../sources/draft/engine-tables.ts';
import { fileContent } from '../sources/draft/file-content.ts';
import { closedJson } from '../sources/draft/json-sample.ts';
import { jsonTables, ndjsonTables } from '../sources/draft/json-tables.ts';
import { type SheetSample, sheetTables } from '../sources/draft/sheet-tables.ts';
import { textTables } from '../sources/draft/text-tables.ts';
import { firstSheetRows } from '../sources/xlsx.ts';
import { arrowRows } from '../store/arrow-rows.ts';
import { parquetRows } from '../store/engine-rows.ts';
import type { Store } from '../store/store.ts';
import { noPlainFile } from './files-below.ts';
import { type MapTrial, triedMap } from './tried-map.ts';
import { isPacked, packedWithin, unpacked } from './unpack.ts';

/** So much of a file is read: enough for some thousand rows [bytes]. */
const sampleBytes = 512 * 1024;
/** So much of its end, for lines below the table [bytes]. */
const tailBytes = 4096;
/** So many rows of a sheet, and so many sheets. */
const sheetRows = 1100;
const mostSheets = 12;
const engineRows = 1000;

/** Where the clocks are taken to stand, and whether somebody said so. */
interface Zone {
  readonly name: string;
  readonly isTold: boolean;
}

/** A drafted map with what it makes of the file. */
export interface DraftedFile extends Draft {
  /** The file's name, within an archive where it was packed; without folders. */
  readonly file: string;
  /** Whether only the first part was looked at. */
  readonly inPart: boolean;
  readonly preview: readonly MapTrial[];
}

/**
 * Drafts a source map for a file, and tries it on its first thousand rows.
 *
 * @param timeZone where the clocks are taken to stand where the file does not say
 * @param zoneIsTold whether somebody said so, and nobody need look
 * @throws DryholdError `file-not-found`, `file-unreadable` where no table is found, with what to do
 */
export async function draftFileMap(path: string, timeZone: string, zoneIsTold = false): Promise<DraftedFile> {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) throw new DryholdError('file-not-found', { path });
  if (stat.isDirectory()) throw unreadable(path, 'it is a folder; name one of its files');
  if (!stat.isFile()) throw unreadable(path, noPlainFile);
  const zone = { name: timeZone, isTold: zoneIsTold };
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-draft-'));
  try {
    if (!isPacked(path)) return await draftPlain(path, basename(path), folder, zone);
    const isVisible = (name: string) => !/(^|\/)[._]/.test(name);
    for await (const inner of unpacked(path, join(folder, 'unpacked'), isVisible)) {
      if (!/\.gz$/i.test(path) && isPacked(inner.name)) throw unreadable(path, `${inner.name}: ${packedWithin}`);
      const drafted = await draftPlain(inner.path, basename(inner.name), folder, zone);
      return { ...drafted, content: `${drafted.content}, packed` };
    }
    throw unreadable(path, 'the archive holds no file');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function draftPlain(path: string, name: string, folder: string, zone: Zone): Promise<DraftedFile> {
  const { bytes, complete, tail } = sampleOf(path);
  const content = fileContent(name, bytes, complete);
  if ('problem' in content) throw unreadable(path, content.problem);
  const isEngine = content.kind === 'parquet' || content.kind === 'arrow';
  const { Store } = isEngine ? await import('../store/store.ts') : { Store: undefined };
  const store = await Store?.open(join(folder, 'store'), 'write');
  try {
    const found =
      'text' in content
        ? textualTables(path, name, content, complete, tail)
        : content.kind === 'xlsx'
          ? sheetTables(name, await sheetSamples(path))
          : await engineSample(store, name, content.kind, path);
    if (found === undefined || found.tables.every((table) => table.columns.length === 0))
      throw unreadable(
        path,
        'no table was found in it; expected are rows of numbers or times under a line of names, or a list of objects',
      );
    const draft = draftMap(name, found, zone.name, zone.isTold);
    const toTry = content.kind === 'json' && !complete ? closedSample(folder, name, content.text) : path;
    const preview = await triedMap(store, draft.map, found.kind, toTry);
    return { ...draft, file: name, inPart: !complete, preview };
  } finally {
    await store?.close();
  }
}

function textualTables(
  path: string,
  name: string,
  content: Extract<ReturnType<typeof fileContent>, { text: string }>,
  complete: boolean,
  tail: readonly string[],
): FoundTables | undefined {
  try {
    if (content.kind === 'json') {
      const found = jsonTables(name, content);
      if (found !== undefined && 'problem' in found) throw unreadable(path, found.problem);
      return found;
    }
    return content.kind === 'ndjson' ? ndjsonTables(name, content) : textTables(name, content, complete, tail);
  } catch (error) {
    if (error instanceof SyntaxError) throw unreadable(path, `no JSON document (${error.message.split('\n')[0]})`);
    throw error;
  }
}

/** The first part of a file, and the lines at its end where that is not all. */
function sampleOf(path: string): { bytes: Buffer; complete: boolean; tail: string[] } {
  try {
    const file = openSync(path, 'r');
    try {
      const { size } = statSync(path);
      const bytes = Buffer.alloc(Math.min(sampleBytes, size));
      const read = readSync(file, bytes, 0, bytes.length, 0);
      if (size <= sampleBytes) return { bytes: bytes.subarray(0, read), complete: true, tail: [] };
      const end = Buffer.alloc(tailBytes);
      const endRead = readSync(file, end, 0, tailBytes, size - tailBytes);
      const tail = end
        .toString('utf8', 0, endRead)
        .split(/\r\n|\n|\r/)
        .slice(1);
      return { bytes: bytes.subarray(0, read), complete: false, tail };
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  }
}

/** The first rows of each sheet; a place behind the last sheet holds none. */
async function sheetSamples(path: string): Promise<SheetSample[]> {
  const samples: SheetSample[] = [];
  let empty = 0;
  for (let sheet = 1; sheet <= mostSheets && empty < 2; sheet += 1) {
    const rows = await firstSheetRows(path, sheet, sheetRows);
    empty = rows.length === 0 ? empty + 1 : 0;
    if (rows.length > 0) samples.push({ sheet, rows });
  }
  return samples;
}

async function engineSample(
  store: Store | undefined,
  name: string,
  kind: 'parquet' | 'arrow',
  path: string,
): Promise<FoundTables> {
  const source = kind === 'arrow' || store === undefined ? await arrowRows(path) : await parquetRows(store, path);
  const rows: (readonly unknown[])[] = [];
  for await (const { cells } of source.rows) {
    rows.push(cells ?? []);
    if (rows.length >= engineRows) break;
  }
  await source.close?.();
  return engineTables(name, kind, source.columns, rows);
}

/** The first part of a JSON document as a document of its own. */
function closedSample(folder: string, name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, closedJson(text) ?? '');
  return path;
}

function unreadable(path: string, problem: string): DryholdError {
  return new DryholdError('file-unreadable', { path, problem });
}
