// The folders of sample-data, and what differs between what each says must come of it and what does.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import { tableNamed } from '../src/records/tables.ts';
import { ingest } from '../src/steps/ingest.ts';
import { judge } from '../src/steps/judge.ts';
import { Store } from '../src/store/store.ts';

export const sampleRoot = fileURLToPath(new URL('../sample-data/', import.meta.url));
export const samples = readdirSync(sampleRoot, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name);

type Row = Readonly<Record<string, unknown>>;

/** What a sample says must come of it. */
export interface Expected {
  deliveries: { path: string; map?: string | string[] }[];
  sources: { rows_read: number; rows_kept: number; rows_rejected: number; rows_repeated: number }[];
  rejects: { file: string; line: number; table_name: string; reason_id: string; says: string }[];
  /** Every row of a table, by table, in the order of its key; cells that are not known are left out. */
  rows?: Record<string, Record<string, string | number | boolean>[]>;
  facts?: Record<string, Record<string, number>>;
  outcomes?: Record<string, Record<string, string>>;
}

export function expectedOf(sample: string): Expected {
  return JSON.parse(readFileSync(join(sampleRoot, sample, 'expected.json'), 'utf8')) as Expected;
}

/** The maps that a sample's deliveries name. */
export function mapsOf({ deliveries }: Expected): string[] {
  return deliveries.flatMap(({ map }) => map ?? []);
}

/**
 * Takes a sample in and compares with what it says must come of it, cell by cell.
 *
 * @param mapPath where a map that the sample names is to be found; by default beside the sample
 * @returns what differs, in words; nothing where all is right
 */
export async function differencesOf(
  sample: string,
  mapPath: (map: string) => string = (map) => join(sampleRoot, sample, map),
): Promise<string[]> {
  const expected = expectedOf(sample);
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-sample-'));
  const store = await Store.open(folder, 'write');
  try {
    for (const { path, map } of expected.deliveries)
      await ingest(store, [join(sampleRoot, sample, path)], { map: [map ?? []].flat().map(mapPath) });
    await judge(store);
    return [
      ...(await sourcesDiffer(store, expected)),
      ...(await rejectsDiffer(store, expected)),
      ...(await rowsDiffer(store, expected)),
      ...(await factsDiffer(store, expected)),
      ...(await outcomesDiffer(store, expected)),
    ];
  } finally {
    await store.close();
    rmSync(folder, { recursive: true });
  }
}

async function sourcesDiffer(store: Store, { sources }: Expected): Promise<string[]> {
  const found = await store.rows<Expected['sources'][number]>(
    'SELECT file, table_name, rows_read, rows_kept, rows_rejected, rows_repeated FROM sources ORDER BY file, table_name',
  );
  const open = found.filter((row) => row.rows_kept + row.rows_rejected + row.rows_repeated !== row.rows_read);
  return [...listsDiffer('sources', found, sources), ...open.map((row) => `sources: no sum: ${shown(row)}`)];
}

async function rejectsDiffer(store: Store, { rejects }: Expected): Promise<string[]> {
  const found = await store.rows<{ detail: string }>(
    'SELECT file, line, table_name, reason_id, detail FROM rejects ORDER BY file, line, table_name',
  );
  // What must be in the detail stands for the whole of it where it is there.
  const told = found.map(({ detail, ...row }, at) => {
    const says = rejects[at]?.says;
    return { ...row, says: says !== undefined && detail.includes(says) ? says : detail };
  });
  return listsDiffer('rejects', told, rejects);
}

async function rowsDiffer(store: Store, { rows = {} }: Expected): Promise<string[]> {
  const differ: string[] = [];
  for (const [table, wanted] of Object.entries(rows)) {
    const found = await store.rows(`FROM ${table} ORDER BY ${tableNamed(table)?.key.join(', ')}`);
    differ.push(...listsDiffer(table, found.map(known), wanted));
  }
  return differ;
}

async function factsDiffer(store: Store, { facts = {} }: Expected): Promise<string[]> {
  const differ: string[] = [];
  for (const [jobId, wanted] of Object.entries(facts)) {
    const [found = {}] = await store.rows<Record<string, unknown>>('SELECT * FROM facts WHERE job_id = $1', [jobId]);
    for (const [name, value] of Object.entries(wanted))
      if (!(Math.abs(Number(found[name] ?? Number.NaN) - value) < 5e-10))
        differ.push(`facts of ${jobId}: ${name} is ${shown(found[name])}, not ${value}`);
  }
  return differ;
}

async function outcomesDiffer(store: Store, { outcomes = {} }: Expected): Promise<string[]> {
  const differ: string[] = [];
  for (const [jobId, wanted] of Object.entries(outcomes)) {
    const found = await store.rows<{ check_id: string; outcome: string }>(
      'SELECT check_id, outcome FROM findings WHERE job_id = $1',
      [jobId],
    );
    const told = new Map(found.map((row) => [row.check_id, row.outcome]));
    for (const [check, outcome] of Object.entries(wanted))
      if (told.get(check) !== outcome) differ.push(`${jobId}: ${check} is ${told.get(check)}, not ${outcome}`);
  }
  return differ;
}

function listsDiffer(what: string, found: readonly Row[], wanted: readonly Row[]): string[] {
  const length = Math.max(found.length, wanted.length);
  return Array.from({ length }, (_, at) => [found[at], wanted[at]] as const).flatMap(([row, want], at) =>
    row !== undefined && want !== undefined && sameRow(row, want)
      ? []
      : [`${what} ${at}: ${shown(row)}, not ${shown(want)}`],
  );
}

/** A row without what is not known. */
function known(row: Row): Row {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null));
}

function sameRow(found: Row, wanted: Row): boolean {
  return [...new Set([...Object.keys(found), ...Object.keys(wanted)])].every((name) =>
    sameCell(found[name], wanted[name]),
  );
}

/** Numbers hold to nine digits; `over` is how people write what the store keeps as infinity. */
function sameCell(found: unknown, wanted: unknown): boolean {
  if (wanted === 'over') return found === Number.POSITIVE_INFINITY;
  if (typeof wanted !== 'number' || typeof found !== 'number' || wanted === 0) return isDeepStrictEqual(found, wanted);
  return Math.abs(found - wanted) < 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(wanted))) - 8);
}

function shown(value: unknown): string {
  return JSON.stringify(value, (_, each: unknown) => (typeof each === 'bigint' ? `${each}n` : each)) ?? 'nothing';
}
