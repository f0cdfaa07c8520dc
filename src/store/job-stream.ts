import type { DuckDBDataChunk } from '@duckdb/node-api';
import { columnMeta } from '../records/column.ts';
import { readings } from '../records/tables/readings.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';
import type { ChunkSource } from './segment-reader.ts';
import { type SegmentSlice, segmentSlices } from './segment-slices.ts';
import { literal } from './sql.ts';
import type { Store } from './store.ts';

const markWords = columnMeta(readings.schema.shape.phase_mark).words ?? [];

/** A mark as a small number, 0 for none: texts would cost more than everything else together. */
const markCode = `CASE phase_mark ${markWords.map((word, index) => `WHEN ${literal(word)} THEN ${index + 1}`).join(' ')} ELSE 0 END::UTINYINT`;

/** The vacuum readings of one job. */
export interface JobReadings {
  readonly jobId: string;
  readonly series: VacuumSeries[];
  readonly marks: PhaseMark[];
}

/** Rows that are read at once. */
const sliceRows = 500_000;

/**
 * Streams the vacuum readings of the jobs in `temp.<wanted>`, by segment and place within it.
 *
 * @param wanted a temporary table with a column `job_id`
 */
export async function* streamJobReadings(store: Store, wanted: string): AsyncGenerator<JobReadings> {
  for (const slice of await segmentSlices(store, wanted, sliceRows)) yield* readSlice(store, slice);
}

/** The vacuum readings of a slice, job by job in typed arrays, which are views of one array for all. */
export async function* readSlice(source: ChunkSource, slice: SegmentSlice): AsyncGenerator<JobReadings> {
  const columns = await sliceColumns(source, slice);
  let from = 0;
  for (const job of slice.jobs) {
    const own = rowsOf(columns, from, from + job.rows);
    from += job.rows;
    yield {
      jobId: job.jobId,
      series: job.gauges > 1 ? splitByGauge(own) : [{ gauge: null, elapsedS: own.elapsedS, vacuumPa: own.vacuumPa }],
      marks: job.marks > 0 ? changesOf(own) : [],
    };
  }
}

interface ReadingColumns {
  readonly elapsedS: Float64Array;
  readonly vacuumPa: Float64Array;
  /** Empty where no job has several gauges. */
  readonly gauge: (string | null)[];
  /** Places in `markWords` from 1; empty where nothing is marked. */
  readonly mark: Uint8Array;
}

/** Reads a slice whole. */
async function sliceColumns(
  source: ChunkSource,
  { path, columns, firstRow, rows, jobs }: SegmentSlice,
): Promise<ReadingColumns> {
  const has = (column: string) => columns.includes(column);
  const select = ['elapsed_s', has('vacuum_pa') ? "coalesce(vacuum_pa, 'nan'::DOUBLE)" : "'nan'::DOUBLE"];
  const gaugeAt = has('gauge') && jobs.some((job) => job.gauges > 1) ? select.push('gauge') - 1 : undefined;
  const markAt = has('phase_mark') && jobs.some((job) => job.marks > 0) ? select.push(markCode) - 1 : undefined;
  const chunks = await source.chunks(
    `SELECT ${select.join(', ')} FROM read_parquet(${literal(path)}, file_row_number = true)
     WHERE file_row_number >= ${firstRow} AND file_row_number < ${firstRow + rows}`,
  );
  const read: ReadingColumns = {
    elapsedS: new Float64Array(rows),
    vacuumPa: new Float64Array(rows),
    gauge: [],
    mark: new Uint8Array(markAt === undefined ? 0 : rows),
  };
  let filled = 0;
  for (const chunk of chunks) {
    read.elapsedS.set(items<Float64Array>(chunk, 0), filled);
    read.vacuumPa.set(items<Float64Array>(chunk, 1), filled);
    if (markAt !== undefined) read.mark.set(items<Uint8Array>(chunk, markAt), filled);
    if (gaugeAt !== undefined) read.gauge.push(...(chunk.getColumnValues(gaugeAt) as (string | null)[]));
    filled += chunk.rowCount;
  }
  if (filled !== rows) throw new TypeError(`${path}: ${filled} rows where the listing has ${rows}`);
  return read;
}

function rowsOf({ elapsedS, vacuumPa, gauge, mark }: ReadingColumns, from: number, to: number): ReadingColumns {
  return {
    elapsedS: elapsedS.subarray(from, to),
    vacuumPa: vacuumPa.subarray(from, to),
    gauge: gauge.slice(from, to),
    mark: mark.subarray(from, to),
  };
}

/** A column's values as a typed array; those of absent cells mean nothing. */
function items<Values>(chunk: DuckDBDataChunk, column: number): Values {
  return (chunk.getColumnVector(column) as unknown as { items: Values }).items;
}

function splitByGauge({ elapsedS, vacuumPa, gauge }: ReadingColumns): VacuumSeries[] {
  return [...new Set(gauge)].map((name) => {
    const rows = gauge.flatMap((of, index) => (of === name ? [index] : []));
    return {
      gauge: name,
      elapsedS: Float64Array.from(rows, (row) => elapsedS[row]),
      vacuumPa: Float64Array.from(rows, (row) => vacuumPa[row]),
    };
  });
}

function changesOf({ elapsedS, mark }: ReadingColumns): PhaseMark[] {
  const changes: PhaseMark[] = [];
  for (let i = 0; i < mark.length; i += 1) {
    if (mark[i] !== (i === 0 ? 0 : mark[i - 1]))
      changes.push({ elapsedS: elapsedS[i], phase: mark[i] === 0 ? null : markWords[mark[i] - 1] });
  }
  return changes;
}
