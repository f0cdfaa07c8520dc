import type { MeasuredRecords } from '../facts/job-material.ts';
import { measuredFacts } from '../facts/measured-facts.ts';
import { jobCurves } from '../facts/recording/job-curves.ts';
import type { Facts } from '../records/tables/facts.ts';
import { ColumnBuffers } from '../store/column-buffers.ts';
import type { JobCurvePrint } from '../store/curve-prints.ts';
import { type JobReadings, readSlice } from '../store/read-slice.ts';
import { SegmentReader } from '../store/segment-reader.ts';
import type { SegmentSlice } from '../store/segment-slices.ts';
import { curvePrint } from '../traces/curve/curve-print.ts';

/** A slice of readings and what the records tell of its jobs, in the same order. */
export interface SliceTask {
  readonly slice: SegmentSlice;
  readonly records: readonly MeasuredRecords[];
}

/** What the readings of one job show, and by what its curves are found again. */
export interface SlicedFacts {
  readonly facts: Partial<Facts>;
  readonly prints: readonly JobCurvePrint[];
}

/** Computes the facts of the readings of slices, one slice after the other: all are read into the same memory. */
export class SliceFacts {
  readonly #buffers = new ColumnBuffers();
  #reader: Promise<SegmentReader> | undefined;
  #last: Promise<unknown> = Promise.resolve();
  #ended = false;

  /** The facts of a slice's jobs, in their order. */
  of(task: SliceTask): Promise<SlicedFacts[]> {
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

  async #measured({ slice, records }: SliceTask): Promise<SlicedFacts[]> {
    if (this.#ended) throw new Error('ended before this slice was read');
    this.#reader ??= SegmentReader.begin();
    const measured: SlicedFacts[] = [];
    for await (const { jobId: _, ...readings } of readSlice(await this.#reader, slice, this.#buffers)) {
      const { curves, prints } = printsOf(readings);
      const facts = measuredFacts({ ...records[measured.length], ...readings });
      if (curves > 0)
        Object.assign(facts, {
          pressure_curves: curves,
          compared_curves: prints.filter(({ print }) => print.hasFace).length,
        });
      measured.push({ facts, prints });
    }
    return measured;
  }
}

function printsOf(readings: Omit<JobReadings, 'jobId'>): { curves: number; prints: JobCurvePrint[] } {
  const curves = jobCurves(readings);
  const prints = curves.flatMap(({ column, gauge, elapsedS, pa }) => {
    const print = curvePrint(elapsedS, pa);
    return print === undefined ? [] : { column, gauge, print };
  });
  return { curves: curves.length, prints };
}
