import { type JobReadings, readSlice } from './read-slice.ts';
import { SegmentReader } from './segment-reader.ts';
import { segmentSlices } from './segment-slices.ts';
import type { Store } from './store.ts';

/** Values that are read at once, rows times columns. */
const sliceCells = 8_000_000;

/**
 * Streams the vacuum readings of the jobs in `temp.<wanted>`, by segment and place within it.
 *
 * @param wanted a temporary table with a column `job_id`
 */
export async function* streamJobReadings(store: Store, wanted: string): AsyncGenerator<JobReadings> {
  const reader = await SegmentReader.begin();
  try {
    for await (const slice of segmentSlices(store, wanted, sliceCells)) yield* readSlice(reader, slice);
  } finally {
    reader.close();
  }
}
