import { join } from 'node:path';
import type { Store } from './store.ts';

/** A job whose readings lie in a slice. */
export interface SlicedJob {
  readonly jobId: string;
  readonly rows: number;
  readonly gauges: number;
  /** How many of its rows carry a mark. */
  readonly marks: number;
}

/** Neighbouring jobs of one segment: plain data, so that another thread can read them from the file. */
export interface SegmentSlice {
  readonly path: string;
  /** The columns that the segment has. */
  readonly columns: readonly string[];
  readonly firstRow: number;
  readonly rows: number;
  /** In the order of their rows, without gaps. */
  readonly jobs: readonly SlicedJob[];
}

type ListedJob = { job_id: string; segment_id: number; first_row: number; rows: number; gauges: number; marks: number };

/**
 * Cuts the readings of the jobs in `temp.<wanted>` into slices, by segment and place within it.
 *
 * @param wanted a temporary table with a column `job_id`
 * @param mostRows a slice ends before it gets larger; one job may
 */
export async function segmentSlices(store: Store, wanted: string, mostRows: number): Promise<SegmentSlice[]> {
  const segments = await store.rows<{ segment_id: number; file: string; columns: string[] }>(
    'SELECT segment_id, file, columns FROM segments',
  );
  const files = new Map(segments.map((segment) => [segment.segment_id, segment]));
  const listed = await store.rows<ListedJob>(`
    SELECT job_id, segment_id, first_row, rows, gauges, marks FROM segment_jobs SEMI JOIN temp.${wanted} USING (job_id)
    ORDER BY segment_id, first_row`);
  const slices: SegmentSlice[] = [];
  let open: { segmentId: number; firstRow: number; rows: number; jobs: SlicedJob[] } | undefined;
  const close = () => {
    const segment = open && files.get(open.segmentId);
    if (open === undefined || segment === undefined) return;
    const { firstRow, rows, jobs } = open;
    slices.push({ path: join(store.segmentsFolder, segment.file), columns: segment.columns, firstRow, rows, jobs });
  };
  for (const { job_id: jobId, segment_id: segmentId, first_row: firstRow, rows, gauges, marks } of listed) {
    const follows =
      open !== undefined &&
      open.segmentId === segmentId &&
      open.firstRow + open.rows === firstRow &&
      open.rows + rows <= mostRows;
    if (!follows) {
      close();
      open = { segmentId, firstRow, rows: 0, jobs: [] };
    }
    if (open === undefined) continue;
    open.rows += rows;
    open.jobs.push({ jobId, rows, gauges, marks });
  }
  close();
  return slices;
}
