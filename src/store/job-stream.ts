import { join } from 'node:path';
import type { DuckDBDataChunk } from '@duckdb/node-api';
import { columnMeta } from '../records/column.ts';
import { readings } from '../records/tables/readings.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';
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

/** A job in a segment whose readings are wanted. */
type ListedJob = {
  job_id: string;
  rows: number;
  gauges: number;
  marks: number;
};

type Segment = { segment_id: number; file: string; rows: number; columns: string[]; wanted_rows: number };

/**
 * Streams the vacuum readings of the jobs in `temp.<wanted>`, whole jobs at a time, in typed arrays, by segment and place
 * within it. The next chunk is fetched while this one is worked on.
 *
 * @param wanted a temporary table with a column `job_id`
 */
export async function* streamJobReadings(store: Store, wanted: string): AsyncGenerator<JobReadings> {
  const segments = await store.rows<Segment>(`
    SELECT g.segment_id, g.file, g.rows, g.columns, sum(j.rows) AS wanted_rows
    FROM segments g JOIN segment_jobs j USING (segment_id) SEMI JOIN temp.${wanted} w ON w.job_id = j.job_id
    GROUP BY ALL ORDER BY g.segment_id`);
  for (const segment of segments) {
    const jobs = await store.rows<ListedJob>(`
      SELECT job_id, rows, gauges, marks FROM segment_jobs SEMI JOIN temp.${wanted} USING (job_id)
      WHERE segment_id = ${segment.segment_id} ORDER BY first_row`);
    yield* segmentJobs(store, segment, jobs);
  }
}

async function* segmentJobs(store: Store, segment: Segment, jobs: ListedJob[]): AsyncGenerator<JobReadings> {
  const has = (column: string) => segment.columns.includes(column);
  const select = ['elapsed_s', has('vacuum_pa') ? "coalesce(vacuum_pa, 'nan'::DOUBLE)" : "'nan'::DOUBLE"];
  const gauges = has('gauge') && jobs.some((job) => job.gauges > 1) ? select.push('gauge') - 1 : undefined;
  const marks = has('phase_mark') && jobs.some((job) => job.marks > 0) ? select.push(markCode) - 1 : undefined;
  // Rows are told apart by the listing's counts; where other jobs lie between, they are left out by name first.
  const whole = segment.wanted_rows === segment.rows;
  const filter = whole ? '' : `WHERE job_id IN (${jobs.map((job) => literal(job.job_id)).join(', ')})`;
  const stream = await store.stream(
    `SELECT ${select.join(', ')} FROM read_parquet(${literal(join(store.segmentsFolder, segment.file))}) ${filter}`,
  );
  try {
    const source = new RowSource(stream.fetchChunk);
    for (const job of jobs) {
      const columns = await source.take(job.rows, { gauges, marks });
      const single = { gauge: null, elapsedS: columns.elapsedS, vacuumPa: columns.vacuumPa };
      yield {
        jobId: job.job_id,
        series: job.gauges > 1 ? splitByGauge(columns) : [single],
        marks: job.marks > 0 ? changesOf(columns) : [],
      };
    }
  } finally {
    stream.close();
  }
}

interface JobColumns {
  elapsedS: Float64Array;
  vacuumPa: Float64Array;
  gauge: (string | null)[];
  /** Places in `markWords` from 1; empty where no marks are wanted. */
  mark: Uint8Array;
}

/** Hands out rows by count from a stream of chunks, asking for the next chunk before this one is used up. */
class RowSource {
  readonly #fetch: () => Promise<DuckDBDataChunk | null>;
  #next: Promise<DuckDBDataChunk | null>;
  #chunk: DuckDBDataChunk | null = null;
  #used = 0;

  constructor(fetch: () => Promise<DuckDBDataChunk | null>) {
    this.#fetch = fetch;
    this.#next = fetch();
  }

  async take(rows: number, places: { gauges?: number; marks?: number }): Promise<JobColumns> {
    const columns: JobColumns = {
      elapsedS: new Float64Array(rows),
      vacuumPa: new Float64Array(rows),
      gauge: [],
      mark: new Uint8Array(places.marks === undefined ? 0 : rows),
    };
    let filled = 0;
    while (filled < rows) {
      if (this.#chunk === null || this.#used === this.#chunk.rowCount) await this.#advance();
      const chunk = this.#chunk;
      if (chunk === null) throw new TypeError('segment ends before its listing does');
      const count = Math.min(rows - filled, chunk.rowCount - this.#used);
      columns.elapsedS.set(items<Float64Array>(chunk, 0).subarray(this.#used, this.#used + count), filled);
      columns.vacuumPa.set(items<Float64Array>(chunk, 1).subarray(this.#used, this.#used + count), filled);
      if (places.marks !== undefined) {
        columns.mark.set(items<Uint8Array>(chunk, places.marks).subarray(this.#used, this.#used + count), filled);
      }
      if (places.gauges !== undefined) {
        const vector = chunk.getColumnVector(places.gauges);
        for (let i = 0; i < count; i += 1) columns.gauge.push(vector.getItem(this.#used + i) as string | null);
      }
      filled += count;
      this.#used += count;
    }
    return columns;
  }

  async #advance(): Promise<void> {
    this.#chunk = await this.#next;
    this.#used = 0;
    this.#next = this.#chunk === null ? Promise.resolve(null) : this.#fetch();
  }
}

/** A column's values as a typed array; those of absent cells mean nothing. */
function items<Values>(chunk: DuckDBDataChunk, column: number): Values {
  return (chunk.getColumnVector(column) as unknown as { items: Values }).items;
}

function splitByGauge({ elapsedS, vacuumPa, gauge }: JobColumns): VacuumSeries[] {
  return [...new Set(gauge)].map((name) => {
    const rows = gauge.flatMap((of, index) => (of === name ? [index] : []));
    return {
      gauge: name,
      elapsedS: Float64Array.from(rows, (row) => elapsedS[row]),
      vacuumPa: Float64Array.from(rows, (row) => vacuumPa[row]),
    };
  });
}

function changesOf({ elapsedS, mark }: JobColumns): PhaseMark[] {
  const changes: PhaseMark[] = [];
  for (let i = 0; i < mark.length; i += 1) {
    if (mark[i] !== (i === 0 ? 0 : mark[i - 1]))
      changes.push({ elapsedS: elapsedS[i], phase: mark[i] === 0 ? null : markWords[mark[i] - 1] });
  }
  return changes;
}
