import { join } from 'node:path';
import type { SegmentRows } from './segment-reader.ts';
import type { Store } from './store.ts';

/** A job whose readings lie in a slice. */
export interface SlicedJob {
  readonly jobId: string;
  /** Of the segment. */
  readonly firstRow: number;
  readonly rows: number;
  readonly gauges: number;
  /** How many of its rows carry a mark. */
  readonly marks: number;
}

/** Jobs of one segment near each other: plain data, so that another thread can read them from the file. */
export interface SegmentSlice extends SegmentRows {
  /** In the order of their rows. */
  readonly jobs: readonly SlicedJob[];
}

/** Rows between two jobs that are read rather than a slice begun: to begin one costs about as much. Measured. */
const mostBetween = 60_000;

type Segment = { segment_id: number; file: string; columns: string[] };
type ListedJob = { job_id: string; segment_id: number; first_row: number; rows: number; gauges: number; marks: number };

/** Jobs of a slice at most, however few readings they have: what is found of them is held together. */
const mostJobs = 500;
/** Jobs that are listed at once; memory does not grow with the fleet. */
const listedJobs = 20_000;

/**
 * Cuts the readings of the jobs in `temp.<wanted>` into slices, by segment and place within it. One such list of a store at a time.
 *
 * @param wanted a temporary table with a column `job_id`
 * @param mostCells values, rows times columns of the segment: a slice ends before it has more; one job may
 */
export async function* segmentSlices(store: Store, wanted: string, mostCells: number): AsyncGenerator<SegmentSlice> {
  await store.run(`CREATE OR REPLACE TEMP TABLE placed_jobs AS
    SELECT job_id, segment_id, first_row, rows, gauges, marks, row_number() OVER (ORDER BY segment_id, first_row) AS place
    FROM segment_jobs SEMI JOIN temp.${wanted} USING (job_id) ORDER BY place`);
  const segments = await store.rows<Segment>(
    'SELECT segment_id, file, columns FROM segments SEMI JOIN temp.placed_jobs USING (segment_id)',
  );
  const files = new Map(segments.map((segment) => [segment.segment_id, segment]));
  let open: OpenSlice | undefined;
  for (let start = 0; ; start += listedJobs) {
    const listed = await store.rows<ListedJob>(
      `SELECT * FROM temp.placed_jobs WHERE place > ${start} AND place <= ${start + listedJobs} ORDER BY place`,
    );
    for (const { job_id: jobId, segment_id: segmentId, first_row: firstRow, rows, gauges, marks } of listed) {
      const end = firstRow + rows;
      const follows =
        open?.segment.segment_id === segmentId &&
        open.jobs.length < mostJobs &&
        firstRow - open.end <= mostBetween &&
        end - open.firstRow <= mostCells / open.segment.columns.length;
      if (!follows) {
        if (open !== undefined) yield sliceOf(store, open);
        const segment = files.get(segmentId);
        if (segment === undefined) throw new TypeError(`no segment ${segmentId}, where job ${jobId} is said to be`);
        open = { segment, firstRow, end, jobs: [] };
      }
      if (open === undefined) continue;
      open.end = end;
      open.jobs.push({ jobId, firstRow, rows, gauges, marks });
    }
    if (listed.length < listedJobs) break;
  }
  if (open !== undefined) yield sliceOf(store, open);
}

interface OpenSlice {
  readonly segment: Segment;
  readonly firstRow: number;
  end: number;
  readonly jobs: SlicedJob[];
}

function sliceOf({ segmentsFolder }: Store, { segment, firstRow, end, jobs }: OpenSlice): SegmentSlice {
  return { path: join(segmentsFolder, segment.file), columns: segment.columns, firstRow, rows: end - firstRow, jobs };
}
