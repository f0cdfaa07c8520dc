import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { newSegment } from './new-segment.ts';
import { jobListing } from './publish-readings.ts';
import { refreshReadingsView } from './readings-view.ts';
import { copyToSegment, orderFor } from './reading-part.ts';
import { identifier, literal, parquetFiles } from './sql.ts';
import type { Store } from './store.ts';

/** A segment of fewer rows is small. */
const smallRows = 1_000_000;
/** So many small segments are merged into one. */
const smallSegments = 24;
/** A segment of which more than this ratio is superseded is rewritten. */
const supersededRatio = 1 / 3;

/**
 * Merges small segments and rewrites those of which much is superseded, in one transaction.
 *
 * @returns how many segments went
 */
export async function compact(store: Store): Promise<number> {
  const old = await worthCompacting(store);
  if (old.length === 0) return 0;
  const columns = [...new Set(old.flatMap((segment) => segment.columns))];
  const staged = join(store.segmentsFolder, `staged-${process.pid}-compact.parquet`);
  const ids = old.map((segment) => segment.segment_id).join(', ');
  const files = parquetFiles(
    old.map((segment) => join(store.segmentsFolder, segment.file)),
    'union_by_name = true',
    'filename = true',
  );
  const live = await store.rows(
    'SELECT 1 FROM segment_jobs WHERE segment_id IN (SELECT unnest([' + ids + '])) LIMIT 1',
  );
  const made: string[] = [];
  try {
    // All of it is sorted: what is written to disk sooner leaves room.
    await store.holdInMemory('spare');
    await store.transaction(async () => {
      if (live.length > 0) {
        await store.run(
          copyToSegment(
            `SELECT ${columns.map((name) => `r.${identifier(name)}`).join(', ')}
          FROM ${files} r
          JOIN segments g ON g.file = parse_filename(r.filename)
          JOIN segment_jobs j ON j.segment_id = g.segment_id AND j.job_id = r.job_id
          ORDER BY ${orderFor(columns).replace(/\b(\w+)/g, 'r.$1')}`,
            staged,
          ),
        );
        await replaceListing(store, staged, columns, made);
      }
      await store.run(`DELETE FROM superseded_jobs WHERE segment_id IN (${ids})`);
      await store.run(`DELETE FROM segments WHERE segment_id IN (${ids})`);
      await refreshReadingsView(store.connection, store.segmentsFolder);
    });
  } catch (error) {
    for (const leftover of [staged, ...made]) rmSync(leftover, { force: true });
    throw error;
  } finally {
    await store.holdInMemory('usual');
  }
  for (const segment of old) rmSync(join(store.segmentsFolder, segment.file), { force: true });
  return old.length;
}

type Segment = { segment_id: number; file: string; columns: string[] };

async function worthCompacting(store: Store): Promise<Segment[]> {
  const segments = await store.rows<Segment & { rows: number; live: number }>(`
    SELECT g.segment_id, g.file, g.columns, g.rows, coalesce(sum(j.rows), 0)::BIGINT AS live
    FROM segments g LEFT JOIN segment_jobs j USING (segment_id) GROUP BY ALL ORDER BY g.segment_id`);
  const small = segments.filter((segment) => segment.rows < smallRows);
  const stale = segments.filter((segment) => segment.live < segment.rows * (1 - supersededRatio));
  return small.length >= smallSegments ? [...new Set([...small, ...stale])] : stale;
}

/** Registers the compacted file and moves the listing of its jobs to it. */
async function replaceListing(store: Store, staged: string, columns: readonly string[], made: string[]): Promise<void> {
  const { id, file, path } = await newSegment(store, staged);
  made.push(path);
  await store.run(`CREATE OR REPLACE TEMP TABLE compacted_jobs AS ${jobListing({ path, columns })}`);
  await store.run(
    `INSERT INTO segments SELECT ${id}, ${literal(file)}, sum(rows), [${columns.map(literal).join(', ')}] FROM temp.compacted_jobs`,
  );
  await store.run('DELETE FROM segment_jobs WHERE job_id IN (SELECT job_id FROM temp.compacted_jobs)');
  await store.run(
    `INSERT INTO segment_jobs SELECT job_id, ${id}, first_row, rows, gauges, marks FROM temp.compacted_jobs`,
  );
}
