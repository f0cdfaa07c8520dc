import { closeSync, createWriteStream, mkdirSync, openSync, truncateSync, writeFileSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createGzip } from 'node:zlib';
import { once } from 'node:events';

/** What a refused file must say, and how it is written: so many bytes of it, without keeping them in memory. */
export interface EndlessFile {
  readonly name: string;
  readonly says: string;
  readonly write: (path: string, bytes: number) => void | Promise<void>;
}

const block = (text: string) => Buffer.alloc(1 << 20, text);

function filled(start: string, text: string) {
  return (path: string, bytes: number) => {
    const file = openSync(path, 'w');
    writeSync(file, start);
    const part = block(text);
    for (let written = 0; written < bytes; written += part.length) writeSync(file, part);
    closeSync(file);
  };
}

/** Files that never end where something of them should. */
export const endlessFiles: Readonly<Record<string, EndlessFile>> = {
  'a line of CSV': {
    name: 'readings.csv',
    says: 'is longer than 4 MiB',
    write: filled('job_id,elapsed_s\n', 'x'),
  },
  'a header of CSV, a column each two bytes': {
    name: 'readings.csv',
    says: 'is longer than 4 MiB',
    write: filled('job_id,elapsed_s', ',x'),
  },
  'a quote that is never closed': {
    name: 'readings.csv',
    says: 'is a quote open that is never closed?',
    write: filled('job_id,elapsed_s\nA,1\n"', 'A,1,2\n'),
  },
  'a line of NDJSON': {
    name: 'readings.ndjson',
    says: 'is longer than 4 MiB',
    write: filled('{"job_id":"', 'x'),
  },
  'NUL bytes': {
    name: 'readings.csv',
    says: 'is longer than 4 MiB',
    write: (path, bytes) => {
      writeFileSync(path, 'job_id,elapsed_s\n');
      truncateSync(path, bytes);
    },
  },
  'a .gz of equal rows': {
    name: 'readings.csv.gz',
    says: 'it unpacks to more than 200 times its size',
    write: async (path, bytes) => {
      const gzip = createGzip();
      gzip.pipe(createWriteStream(path));
      gzip.write('job_id,elapsed_s\n');
      const part = block('A,1\n');
      for (let written = 0; written < bytes; written += part.length) if (!gzip.write(part)) await once(gzip, 'drain');
      gzip.end();
      await once(gzip, 'close').catch(() => undefined);
    },
  },
};

/** Writes one of them into a bundle beside a good file; gives the bundle. */
export async function endlessBundle(folder: string, { name, write }: EndlessFile, bytes: number): Promise<string> {
  const bundle = join(folder, 'bundle');
  mkdirSync(bundle, { recursive: true });
  writeFileSync(join(bundle, 'people.csv'), 'technician_id\nT\n');
  const path = join(bundle, name);
  mkdirSync(dirname(path), { recursive: true });
  await write(path, bytes);
  return bundle;
}
