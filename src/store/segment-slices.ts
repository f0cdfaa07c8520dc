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

/**
 * Cuts the readings of the jobs in `temp.<wanted>` into slices, by segment and place within it.
 *
 * @param wanted a temporary table with a column `job_id`
 * @param mostCells values, rows times columns of the segment: a slice ends before it has more; one job may
 */
export async function segmentSlices(store: Store, wanted: string, mostCells: number): Promise<SegmentSlice[]> {
  const segments = await store.rows<Segment>(`
    SELECT segment_id, file, columns FROM segments
    SEMI JOIN (FROM segment_jobs SEMI JOIN temp.${wanted} USING (job_id)) USING (segment_id)`);
  const files = new Map(segments.map((segment) => [segment.segment_id, segment]));
  const listed = await store.rows<ListedJob>(`
    SELECT job_id, segment_id, first_row, rows, gauges, marks FROM segment_jobs SEMI JOIN temp.${wanted} USING (job_id)
    ORDER BY segment_id, first_row`);
  const slices: SegmentSlice[] = [];
  let open: { segmentId: number; firstRow: number; end: number; mostRows: number; jobs: SlicedJob[] } | undefined;
  const close = () => {
    const segment = open && files.get(open.segmentId);
    if (open === undefined || segment === undefined) return;
    const { firstRow, end, jobs } = open;
    const path = join(store.segmentsFolder, segment.file);
    slices.push({ path, columns: segment.columns, firstRow, rows: end - firstRow, jobs });
  };
  for (const { job_id: jobId, segment_id: segmentId, first_row: firstRow, rows, gauges, marks } of listed) {
    const end = firstRow + rows;
    const follows =
      open?.segmentId === segmentId && firstRow - open.end <= mostBetween && end - open.firstRow <= open.mostRows;
    if (!follows) {
      close();
      const mostRows = mostCells / (files.get(segmentId)?.columns.length ?? 1);
      open = { segmentId, firstRow, end, mostRows, jobs: [] };
    }
    if (open === undefined) continue;
    open.end = end;
    open.jobs.push({ jobId, firstRow, rows, gauges, marks });
  }
  close();
  return slices;
}
