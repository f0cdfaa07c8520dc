import { runColumns } from '../records/run-columns.ts';
import type { LineTemperature } from '../facts/job-material.ts';
import { phaseMarks } from '../records/phase-marks.ts';
import type { PressureSeries } from '../traces/pressure-series.ts';
import { runModes, type RunSeries } from '../traces/run-series.ts';
import type { ScaleSeries } from '../traces/scale-series.ts';
import type { PhaseMark, VacuumSeries } from '../traces/vacuum-series.ts';
import type { ColumnBuffers } from './column-buffers.ts';
import { lineTemperature } from './line-temperature.ts';
import { pressureSeries } from './pressure-series.ts';
import { runSeries, type RunningColumns } from './run-series.ts';
import { scaleSeries } from './scale-series.ts';
import type { SegmentReader } from './segment-reader.ts';
import type { SegmentSlice } from './segment-slices.ts';

/** The readings of one job: of its vacuum, its standing pressure test, its weigh-in and its run. */
export interface JobReadings {
  readonly jobId: string;
  readonly series: VacuumSeries[];
  /** Absent where no test pressure was read. */
  readonly pressure?: PressureSeries;
  /** Absent where no scale was read. */
  readonly scale?: ScaleSeries;
  /** Absent where nothing of a running system was read. */
  readonly run?: RunSeries;
  readonly marks: PhaseMark[];
  /** Absent where no pipe clamp was read while the vacuum was. */
  readonly line?: LineTemperature;
}

/** Texts of a column: for each row the place of its text in `words` from 1, 0 for none. */
interface WordColumn {
  readonly places: Float64Array;
  readonly words: readonly string[];
}

/**
 * The readings of a slice, job by job in typed arrays, which are views of one array for all.
 *
 * @param buffers memory to read into; what was read into it before is gone then
 * @throws DryholdError `file-unreadable`
 */
export async function* readSlice(
  reader: SegmentReader,
  slice: SegmentSlice,
  buffers?: ColumnBuffers,
): AsyncGenerator<JobReadings> {
  const columns = await sliceColumns(reader, slice, buffers);
  for (const { jobId, firstRow, rows, gauges, marks } of slice.jobs) {
    const from = firstRow - slice.firstRow;
    const to = from + rows;
    const elapsedS = columns.elapsedS.subarray(from, to);
    const vacuumPa = columns.vacuumPa.subarray(from, to);
    const begin = columns.testPa === undefined ? 0 : afterPressureTest(columns.testPa.subarray(from, to), vacuumPa);
    const line =
      columns.lineC &&
      lineTemperature(elapsedS.subarray(begin), vacuumPa.subarray(begin), columns.lineC.subarray(from + begin, to));
    const gauge = gauges > 1 ? columns.gauge : undefined;
    const pressure = columns.testPa && pressureOf(columns, columns.testPa, gauge, from, to);
    const mark = marks > 0 ? columns.mark : undefined;
    const scale = columns.scaleKg && scaleSeries(elapsedS, columns.scaleKg.subarray(from, to));
    const run = columns.run && runSeries(elapsedS, { ...partOf(columns.run, from, to), vacuum_pa: vacuumPa });
    yield {
      jobId,
      series:
        gauge === undefined
          ? [{ gauge: null, elapsedS, vacuumPa }]
          : splitByGauge(elapsedS, vacuumPa, wordsOf(gauge, from, to)),
      marks: mark === undefined ? [] : changesOf(elapsedS, wordsOf(mark, from, to)),
      ...(line === undefined ? {} : { line }),
      ...(pressure === undefined ? {} : { pressure }),
      ...(scale === undefined ? {} : { scale }),
      ...(run === undefined ? {} : { run }),
    };
  }
}

interface ReadingColumns {
  readonly elapsedS: Float64Array;
  readonly vacuumPa: Float64Array;
  /** Absent where the segment has none. */
  readonly testPa: Float64Array | undefined;
  readonly lineC: Float64Array | undefined;
  readonly scaleKg: Float64Array | undefined;
  readonly run: RunningColumns | undefined;
  /** Absent where no job has several gauges. */
  readonly gauge: WordColumn | undefined;
  /** Absent where nothing is marked. */
  readonly mark: WordColumn | undefined;
}

async function sliceColumns(
  reader: SegmentReader,
  slice: SegmentSlice,
  buffers?: ColumnBuffers,
): Promise<ReadingColumns> {
  const texts: Record<string, readonly string[]> = {};
  if (slice.jobs.some((job) => job.gauges > 1)) texts.gauge = await reader.words(slice, 'gauge');
  if (slice.jobs.some((job) => job.marks > 0)) texts.phase_mark = phaseMarks;
  // A system of which no pressure and no power was read did not run in sight.
  const runs = slice.columns.some((name) => name === 'suction_pa' || name === 'liquid_pa' || name === 'compressor_w');
  if (runs) texts.run_mode = runModes;
  const numbers = ['elapsed_s', 'vacuum_pa', 'test_pressure_pa', 'line_c', 'scale_kg', ...(runs ? runColumns : [])];
  const read = await reader.columns(slice, numbers, texts, buffers);
  const { elapsed_s: elapsedS, vacuum_pa: vacuumPa, test_pressure_pa: testPa, line_c: lineC } = read;
  const { gauge, phase_mark: mark } = read;
  if (elapsedS === undefined) throw new TypeError(`${slice.path}: readings without elapsed_s`);
  return {
    elapsedS,
    vacuumPa: vacuumPa ?? new Float64Array(slice.rows).fill(Number.NaN),
    testPa,
    lineC,
    scaleKg: read.scale_kg,
    run: runs ? read : undefined,
    gauge: gauge && { places: gauge, words: texts.gauge },
    mark: mark && { places: mark, words: texts.phase_mark },
  };
}

/** The columns of a running system for some rows. */
function partOf(columns: RunningColumns, from: number, to: number): RunningColumns {
  return Object.fromEntries(
    [...runColumns, 'run_mode' as const].flatMap((name) => {
      const values = columns[name];
      return values === undefined ? [] : [[name, values.subarray(from, to)]];
    }),
  );
}

function wordsOf({ places, words }: WordColumn, from: number, to: number): WordColumn {
  return { places: places.subarray(from, to), words };
}

/** First row after the pressure test that came before the vacuum: a vacuum gauge may have shown `over` all through it. */
function afterPressureTest(testPa: Float64Array, vacuumPa: Float64Array): number {
  let row = vacuumPa.findIndex((pa) => Number.isFinite(pa));
  while (row > 0 && Number.isNaN(testPa[row - 1])) row -= 1;
  return Math.max(0, row);
}

/** Of several gauges the one that read the test pressure most often, the first by name of those that did as often. */
function pressureOf(
  { elapsedS, lineC }: ReadingColumns,
  testPa: Float64Array,
  gauge: WordColumn | undefined,
  from: number,
  to: number,
): PressureSeries | undefined {
  const of = (own: Float64Array) => pressureSeries(elapsedS.subarray(from, to), own, lineC?.subarray(from, to));
  const all = testPa.subarray(from, to);
  if (gauge === undefined) return of(all);
  const { places } = wordsOf(gauge, from, to);
  const counts = new Map<number, number>();
  for (let row = 0; row < all.length; row += 1)
    if (all[row] >= 0) counts.set(places[row], (counts.get(places[row]) ?? 0) + 1);
  const [most] = [...counts].toSorted(([a, n], [b, m]) => m - n || a - b);
  return most === undefined ? undefined : of(all.map((pa, row) => (places[row] === most[0] ? pa : Number.NaN)));
}

function splitByGauge(elapsedS: Float64Array, vacuumPa: Float64Array, { places, words }: WordColumn): VacuumSeries[] {
  return [...new Set(places)].map((place) => ({
    gauge: words[place - 1] ?? null,
    elapsedS: elapsedS.filter((_, row) => places[row] === place),
    vacuumPa: vacuumPa.filter((_, row) => places[row] === place),
  }));
}

function changesOf(elapsedS: Float64Array, { places, words }: WordColumn): PhaseMark[] {
  const changes: PhaseMark[] = [];
  let before = 0;
  for (let row = 0; row < places.length; row += 1) {
    if (places[row] === before) continue;
    before = places[row];
    const word = words[before - 1] ?? null;
    // Of the standing pressure test the pressure itself tells; to the vacuum log it is no phase.
    changes.push({ elapsedS: elapsedS[row], phase: word === 'pressure-test' ? null : word });
  }
  return changes;
}
