import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { DryholdError } from '../../src/errors.ts';
import { draftFileMap } from '../../src/steps/draft-map.ts';
import { ingest, type IngestOptions } from '../../src/steps/ingest.ts';
import type { IngestResult } from '../../src/steps/ingest-result.ts';
import { judge } from '../../src/steps/judge.ts';
import { loadMap } from '../../src/steps/loaded-map.ts';
import { Store } from '../../src/store/store.ts';
import type { FuzzCase } from './draw-case.ts';

/** What came of some files. */
export interface Taken {
  /** What must not be, in words. */
  readonly problems: string[];
  readonly files: { taken: number; refused: number; aside: number; drafted: number; wrongMaps: number };
  readonly rows: { read: number; kept: number; rejected: number; repeated: number };
}

/** So many mapped files come at once: each map is held against each of them. */
const lotFiles = 50;

/** A process that holds more is no longer bounded [MiB]; mostly it holds some 400. */
const mostMiB = 1024;

/**
 * Takes files into a store of their own: those of a bundle as one delivery, mapped ones each with its map, as the command does;
 * then judges what came in, and opens the store once more.
 *
 * @param tick is called whenever a file is done, or a step
 */
export async function takeCases(folder: string, cases: readonly FuzzCase[], tick: () => void): Promise<Taken> {
  const taken: Taken = {
    problems: [],
    files: { taken: 0, refused: 0, aside: 0, drafted: 0, wrongMaps: 0 },
    rows: { read: 0, kept: 0, rejected: 0, repeated: 0 },
  };
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  let store = await Store.open(join(folder, 'store'), 'write');
  try {
    tick();
    const bundled = cases.filter(({ lane }) => lane === 'bundle');
    if (bundled.length > 0) await checkedIngest(store, writeBundle(join(folder, 'bundle'), bundled), {}, taken, tick);
    await checkTables(store, taken, cases.length === 1);
    const mapped = cases.filter(({ lane }) => lane === 'mapped');
    for (let at = 0; at < mapped.length; at += lotFiles) {
      const drop = join(folder, 'drop', String(at));
      const map = writeMapped(folder, drop, mapped.slice(at, at + lotFiles), taken);
      if (map.length > 0) await checkedIngest(store, drop, { map }, taken, tick);
    }
    for (const drawn of cases.filter(({ lane }) => lane === 'draft')) {
      await draft(join(folder, 'draft'), drawn, taken);
      tick();
    }
    await checkBook(store, taken);
    tick();
    await judge(store, { onProgress: tick });
    tick();
    await store.close();
    store = await Store.open(join(folder, 'store'), 'read');
    await store.rows('SELECT count(*), count(DISTINCT job_id), max(elapsed_s) FROM readings');
  } catch (error) {
    taken.problems.push(said(error));
  } finally {
    await store.close();
  }
  const left = ['drop', 'bundle', 'draft', 'store', 'maps'];
  const strange = readdirSync(folder).filter((name) => !left.includes(name));
  if (strange.length > 0) taken.problems.push(`files where none should be: ${strange.join(', ')}`);
  const heldMiB = process.memoryUsage().rss / 2 ** 20;
  if (heldMiB > mostMiB) taken.problems.push(`memory: ${heldMiB.toFixed(0)} MiB are held`);
  return taken;
}

function writeBundle(folder: string, cases: readonly FuzzCase[]): string {
  for (const { table, name, bytes } of cases) written(join(folder, table ?? '', name), bytes);
  return folder;
}

function written(path: string, content: Buffer | string): string {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, content);
  return path;
}

/** Writes mapped files, each with a map that is meant for it alone and keeps its jobs apart; gives the maps that can be read. */
function writeMapped(folder: string, drop: string, cases: readonly FuzzCase[], taken: Taken): string[] {
  return cases.flatMap(({ number, name, bytes, map = '' }) => {
    const own = `~${number}${/\.[a-z.]+$/i.exec(name)?.[0] ?? ''}`;
    written(join(drop, `${basename(name, /\.[a-z.]+$/i.exec(name)?.[0])}${own}`), bytes);
    const path = written(join(folder, 'maps', `${number}.json`), ownMap(map, number, name));
    try {
      loadMap(path);
      return path;
    } catch (error) {
      if (!(error instanceof DryholdError)) taken.problems.push(`${number}: map: ${said(error)}`);
      taken.files.wrongMaps += 1;
      return [];
    }
  });
}

function ownMap(text: string, number: number, name: string): string {
  try {
    const map = JSON.parse(text) as { looks_like?: object; rows: { columns: Record<string, unknown> }[] };
    // The files of an archive keep their names: only those of one map each are told apart.
    if (extname(name) !== '.zip') map.looks_like = { file_name: `*~${number}.*` };
    for (const { columns } of map.rows) {
      const cell = columns.job_id as { join?: unknown[]; with?: string } | undefined;
      if (cell === undefined) continue;
      const apart = { constant: String(number) };
      columns.job_id = { with: cell.with ?? '-', join: [apart, ...(cell.join ?? [cell])] };
    }
    return JSON.stringify(map);
  } catch {
    return text;
  }
}

async function checkedIngest(
  store: Store,
  path: string,
  options: IngestOptions,
  taken: Taken,
  tick: () => void,
): Promise<void> {
  const result = await ingest(store, [path], { ...options, onProgress: tick });
  tick();
  note(result, taken);
}

function note({ sources, refusedFiles, leftAside, alreadyIn }: IngestResult, { files, rows, problems }: Taken): void {
  files.taken += new Set(sources.map(({ file }) => file)).size + alreadyIn.length;
  files.refused += refusedFiles.length;
  files.aside += leftAside.length;
  for (const { file, rows_read, rows_kept, rows_rejected, rows_repeated } of sources) {
    rows.read += rows_read;
    rows.kept += rows_kept;
    rows.rejected += rows_rejected;
    rows.repeated += rows_repeated;
    if (
      rows_read !== rows_kept + rows_rejected + rows_repeated ||
      Math.min(rows_kept, rows_rejected, rows_repeated) < 0
    )
      problems.push(
        `${file}: ${rows_read} read, ${rows_kept} kept, ${rows_rejected} refused, ${rows_repeated} repeated`,
      );
  }
  for (const { file, detail } of refusedFiles)
    if (detail.trim() === '' || /undefined|\[object|at .*\.ts:/.test(detail))
      problems.push(`${file}: refused as "${detail}"`);
}

/** Whether each table holds as many rows as are said to be kept; of several files, rows that complement each other are one. */
async function checkTables(store: Store, { problems }: Taken, isOne: boolean): Promise<void> {
  const kept = await store.rows<{ table_name: string; kept: number }>(
    'SELECT table_name, sum(rows_kept)::BIGINT AS kept FROM sources GROUP BY table_name',
  );
  for (const { table_name, kept: wanted } of kept) {
    const [{ n }] = await store.rows<{ n: number }>(`SELECT count(*) AS n FROM "${table_name}"`);
    if (isOne ? n !== wanted : n > wanted || (n === 0) !== (wanted === 0))
      problems.push(`${table_name} holds ${n} rows, said to be kept are ${wanted}`);
  }
}

async function checkBook(store: Store, { problems }: Taken): Promise<void> {
  const wrong = await store.rows(`SELECT * FROM sources s WHERE rows_read <> rows_kept + rows_rejected + rows_repeated
    OR rows_rejected <> (SELECT count(*) FROM rejects r WHERE r.file = s.file AND r.table_name = s.table_name AND r.line > 0)`);
  for (const row of wrong) problems.push(`the book is wrong: ${JSON.stringify(row)}`);
}

async function draft(folder: string, { number, name, bytes }: FuzzCase, { problems, files }: Taken): Promise<void> {
  try {
    await draftFileMap(written(join(folder, String(number), name), bytes), 'UTC');
    files.drafted += 1;
  } catch (error) {
    if (error instanceof DryholdError) files.refused += 1;
    else problems.push(`${number}: drafting: ${said(error)}`);
  }
}

function said(error: unknown): string {
  return error instanceof DryholdError
    ? `ended with ${error.code}: ${error.message}`
    : error instanceof Error
      ? `threw ${error.stack ?? error.message}`
      : `threw ${String(error)}`;
}
