import type { JobReadings } from '../job-log.ts';
import { type RunReadings, runColumns } from './run-test.ts';

/** The readings of a run test after those of a job's log, on its clock. */
export function joinRunTest(before: JobReadings | undefined, run: RunReadings, startS: number): JobReadings {
  const first = before?.elapsedS.length ?? 0;
  const column = (of: Float64Array | undefined, then: Float64Array | undefined) => {
    const all = new Float64Array(first + run.elapsedS.length).fill(Number.NaN);
    if (of !== undefined) all.set(of);
    if (then !== undefined) all.set(then, first);
    return all;
  };
  return {
    elapsedS: column(
      before?.elapsedS,
      run.elapsedS.map((atS) => Math.round((atS + startS) * 10) / 10),
    ),
    vacuumPa: column(before?.vacuumPa, undefined),
    testPa: column(before?.testPa, undefined),
    lineC: column(before?.lineC, undefined),
    scaleKg: column(before?.scaleKg, undefined),
    ...Object.fromEntries(runColumns.map((name) => [name, column(undefined, run[name])])),
  };
}
