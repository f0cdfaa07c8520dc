import type { VacuumRecords } from '../facts/job-material.ts';
import { vacuumFacts } from '../facts/vacuum-facts.ts';
import type { Facts } from '../records/tables/facts.ts';
import { readSlice } from '../store/job-stream.ts';
import type { ChunkSource } from '../store/segment-reader.ts';
import type { SegmentSlice } from '../store/segment-slices.ts';

/** A slice of readings and what the records tell of its jobs, in the same order. */
export interface SliceTask {
  readonly slice: SegmentSlice;
  readonly records: readonly VacuumRecords[];
}

/** The vacuum facts of a slice's jobs, in their order. */
export async function sliceFacts(source: ChunkSource, { slice, records }: SliceTask): Promise<Partial<Facts>[]> {
  const facts: Partial<Facts>[] = [];
  for await (const { series, marks } of readSlice(source, slice)) {
    facts.push(vacuumFacts({ ...records[facts.length], series, marks }));
  }
  return facts;
}
