import type { CsvFile } from './csv-file.ts';
import type { SimulatedJob } from './job.ts';
import { type RunColumn, runColumns } from './run/run-test.ts';

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
const decimalsOf = (name: RunColumn) => (name.endsWith('C') ? 1 : 0);

/** Writes the readings of one job, in time order. */
export async function writeReadings(file: CsvFile, { job, readings, marks, runModes }: SimulatedJob): Promise<void> {
  if (readings === undefined) return;
  const { elapsedS, vacuumPa, testPa, lineC, scaleKg } = readings;
  const run = runColumns.map((name) => ({ values: readings[name], decimals: decimalsOf(name) }) as const);
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
    file.fixed(atS, 1);
    const pa = vacuumPa[index];
    if (pa === Number.POSITIVE_INFINITY) file.bytes(over);
    else number(file, pa, 2);
    number(file, testPa[index], 0);
    for (const { values, decimals } of run) number(file, values === undefined ? Number.NaN : values[index], decimals);
    bytes(file, modeBytes[mode]);
    number(file, lineC[index], 1);
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
