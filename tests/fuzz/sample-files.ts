import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import yauzl from 'yauzl';
import { tableNamed } from '../../src/records/tables.ts';
import { expectedOf, mapsOf, sampleRoot, samples } from '../samples.ts';

/** A file of the samples; what is packed in it is kept apart, so that it can be changed and packed again. */
export interface SampleFile {
  readonly name: string;
  readonly bytes: Buffer;
  /** What an archive or a workbook holds. */
  readonly entries?: readonly { readonly name: string; readonly content: Buffer }[];
  /** What was packed in a `.gz`. */
  readonly inner?: Buffer;
  /** Of a bundle: the table. */
  readonly table?: string;
  /** Of a mapped file: the maps, as they are written. */
  readonly maps?: readonly string[];
}

/** Every file of the samples that is taken in, with the maps of its folder. */
export async function sampleFiles(): Promise<SampleFile[]> {
  const found: SampleFile[] = [];
  for (const sample of samples) {
    const expected = expectedOf(sample);
    const maps = [...new Set(mapsOf(expected))].map((map) => readFileSync(join(sampleRoot, sample, map), 'utf8'));
    for (const { path, map } of expected.deliveries)
      for (const file of filesBelow(join(sampleRoot, sample, path))) {
        const table = basename(file).split('.')[0];
        if (map !== undefined) found.push({ ...(await opened(file)), maps });
        else if (tableNamed(table) !== undefined) found.push({ ...(await opened(file)), table });
      }
  }
  return found;
}

function filesBelow(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path, { recursive: true })
    .map((name) => join(path, String(name)))
    .filter((file) => statSync(file).isFile() && !/expected\.json$|README/.test(file))
    .sort();
}

async function opened(path: string): Promise<SampleFile> {
  const file = { name: basename(path), bytes: readFileSync(path) };
  const extension = extname(path);
  if (extension === '.gz') return { ...file, inner: gunzipSync(file.bytes) };
  return extension === '.zip' || extension === '.xlsx' ? { ...file, entries: await entriesOf(path) } : file;
}

async function entriesOf(path: string): Promise<{ name: string; content: Buffer }[]> {
  const archive = await yauzl.openPromise(path);
  const entries: { name: string; content: Buffer }[] = [];
  try {
    for await (const entry of archive.eachEntry()) {
      const blocks: Buffer[] = [];
      for await (const block of await archive.openReadStreamPromise(entry)) blocks.push(block as Buffer);
      entries.push({ name: entry.fileName, content: Buffer.concat(blocks) });
    }
  } finally {
    archive.close();
  }
  return entries;
}
