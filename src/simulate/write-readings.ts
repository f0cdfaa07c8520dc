import type { CsvFile } from './csv-file.ts';
import type { SimulatedJob } from './job.ts';

export const readingColumns = [
  'job_id',
  'elapsed_s',
  'vacuum_pa',
  'test_pressure_pa',
  'line_c',
  'scale_kg',
  'phase_mark',
] as const;

const over = Buffer.from('over');

/** Writes the readings of one job, in time order. */
export async function writeReadings(file: CsvFile, { job, readings, marks }: SimulatedJob): Promise<void> {
  if (readings === undefined) return;
  const { elapsedS, vacuumPa, testPa, lineC, scaleKg } = readings;
  const jobId = Buffer.from(job.job_id);
  const markBytes = marks.map(({ mark }) => Buffer.from(mark));
  let mark = -1;
  for (let index = 0; index < elapsedS.length; index++) {
    const atS = elapsedS[index];
    while (mark + 1 < marks.length && (marks[mark + 1]?.fromS ?? 0) <= atS) mark++;
    file.bytes(jobId);
    file.fixed(atS, 1);
    const pa = vacuumPa[index];
    if (pa === Number.POSITIVE_INFINITY) file.bytes(over);
    else number(file, pa, 2);
    number(file, testPa[index], 0);
    number(file, lineC[index], 1);
    number(file, scaleKg[index], 3);
    const bytes = markBytes[mark];
    if (bytes === undefined) file.empty();
    else file.bytes(bytes);
    file.endRow();
    const flushed = file.flushed();
    if (flushed !== undefined) await flushed;
  }
}

function number(file: CsvFile, value: number, decimals: 0 | 1 | 2 | 3): void {
  if (Number.isNaN(value)) file.empty();
  else file.fixed(value, decimals);
}
