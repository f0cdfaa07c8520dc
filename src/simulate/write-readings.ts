import type { CsvFile } from './csv-file.ts';
import type { SimulatedJob } from './job.ts';
import type { JobReadings } from './job-log.ts';
import { readingColumnOf } from './mishaps/reading-column.ts';
import { runColumns } from './run/run-test.ts';

export const readingColumns = [
  'job_id',
  'elapsed_s',
  'vacuum_pa',
  'test_pressure_pa',
  'suction_pa',
  'liquid_pa',
  'suction_line_c',
  'liquid_line_c',
  'outdoor_c',
  'indoor_c',
  'indoor_wet_bulb_c',
  'supply_c',
  'return_c',
  'compressor_w',
  'run_mode',
  'line_c',
  'scale_kg',
  'phase_mark',
] as const;

const over = Buffer.from('over');
/** In another unit a column is written to three places, as its source would. */
const OTHER_UNIT_DECIMALS = 3;

/** Writes the readings of one job, in time order. */
export async function writeReadings(file: CsvFile, one: SimulatedJob): Promise<void> {
  const { job, readings, marks, runModes, truth } = one;
  if (readings === undefined) return;
  const inOtherUnit = new Set(
    truth.recording_fault_kind === 'unit' || truth.recording_fault_kind === 'time-unit'
      ? truth.recording_fault_column?.split('+')
      : [],
  );
  const decimalsOf = (name: keyof JobReadings, usual: 0 | 1 | 2) =>
    inOtherUnit.has(readingColumnOf(name)) ? OTHER_UNIT_DECIMALS : usual;
  const timeDecimals = decimalsOf('elapsedS', 1);
  const vacuumDecimals = decimalsOf('vacuumPa', 2);
  const testDecimals = decimalsOf('testPa', 0);
  const lineDecimals = decimalsOf('lineC', 1);
  const { elapsedS, vacuumPa, testPa, lineC, scaleKg } = readings;
  const run = runColumns.map(
    (name) => ({ values: readings[name], decimals: decimalsOf(name, name.endsWith('C') ? 1 : 0) }) as const,
  );
  const jobId = Buffer.from(job.job_id);
  const markBytes = marks.map(({ mark }) => Buffer.from(mark));
  const modeBytes = runModes.map(({ mode }) => (mode === undefined ? undefined : Buffer.from(mode)));
  let mark = -1;
  let mode = -1;
  for (let index = 0; index < elapsedS.length; index++) {
    const atS = elapsedS[index];
    while (mark + 1 < marks.length && (marks[mark + 1]?.fromS ?? 0) <= atS) mark++;
    while (mode + 1 < runModes.length && (runModes[mode + 1]?.fromS ?? 0) <= atS) mode++;
    file.bytes(jobId);
    file.fixed(atS, timeDecimals);
    const pa = vacuumPa[index];
    if (pa === Number.POSITIVE_INFINITY) file.bytes(over);
    else number(file, pa, vacuumDecimals);
    number(file, testPa[index], testDecimals);
    for (const { values, decimals } of run) number(file, values === undefined ? Number.NaN : values[index], decimals);
    bytes(file, modeBytes[mode]);
    number(file, lineC[index], lineDecimals);
    number(file, scaleKg[index], 3);
    bytes(file, markBytes[mark]);
    file.endRow();
    const flushed = file.flushed();
    if (flushed !== undefined) await flushed;
  }
}

function bytes(file: CsvFile, value: Uint8Array | undefined): void {
  if (value === undefined) file.empty();
  else file.bytes(value);
}

function number(file: CsvFile, value: number, decimals: 0 | 1 | 2 | 3): void {
  if (Number.isNaN(value)) file.empty();
  else file.fixed(value, decimals);
}
