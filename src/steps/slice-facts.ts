import type { MeasuredRecords } from '../facts/job-material.ts';
import { measuredFacts } from '../facts/measured-facts.ts';
import type { Facts } from '../records/tables/facts.ts';
import { ColumnBuffers } from '../store/column-buffers.ts';
import { readSlice } from '../store/read-slice.ts';
import { SegmentReader } from '../store/segment-reader.ts';
import type { SegmentSlice } from '../store/segment-slices.ts';

/** A slice of readings and what the records tell of its jobs, in the same order. */
export interface SliceTask {
  readonly slice: SegmentSlice;
  readonly records: readonly MeasuredRecords[];
}

/** Computes the facts of the readings of slices, one slice after the other: all are read into the same memory. */
export class SliceFacts {
  readonly #buffers = new ColumnBuffers();
  #reader: Promise<SegmentReader> | undefined;
  #last: Promise<unknown> = Promise.resolve();
  #ended = false;

  /** The facts of a slice's jobs, in their order. */
  of(task: SliceTask): Promise<Partial<Facts>[]> {
    const facts = this.#last.then(() => this.#measured(task));
    this.#last = facts.catch(() => undefined);
    return facts;
  }

  /** Closes the reader once the slice under way is done; those that wait are refused. */
  async end(): Promise<void> {
    this.#ended = true;
    await this.#last;
    (await this.#reader)?.close();
  }

  async #measured({ slice, records }: SliceTask): Promise<Partial<Facts>[]> {
    if (this.#ended) throw new Error('ended before this slice was read');
    this.#reader ??= SegmentReader.begin();
    const facts: Partial<Facts>[] = [];
    for await (const { jobId: _, ...readings } of readSlice(await this.#reader, slice, this.#buffers)) {
      facts.push(measuredFacts({ ...records[facts.length], ...readings }));
    }
    return facts;
  }
}
