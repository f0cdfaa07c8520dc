import type { RecordedSeries } from '../../traces/recorded-series.ts';
import { runColumns } from '../../records/run-columns.ts';
import type { MeasuredMaterial } from '../job-material.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';

/**
 * The readings of a job as columns, each with its own times. The clamp on the line is looked at as far as it was read with
 * the pressure test.
 *
 * @param vacuum of several vacuum gauges the judged one
 */
export function recordedSeriesOf(
  { pressure, scale, run }: MeasuredMaterial,
  vacuum: VacuumSeries | undefined,
): RecordedSeries[] {
  const all: RecordedSeries[] = [];
  if (vacuum !== undefined) all.push({ column: 'vacuum_pa', elapsedS: vacuum.elapsedS, values: vacuum.vacuumPa });
  if (pressure !== undefined) {
    const { elapsedS, testPa, lineK } = pressure;
    all.push({ column: 'test_pressure_pa', elapsedS, values: testPa });
    if (lineK !== undefined) all.push({ column: 'line_c', elapsedS, values: lineK });
  }
  if (scale !== undefined) all.push({ column: 'scale_kg', elapsedS: scale.elapsedS, values: scale.scaleKg });
  for (const column of runColumns) {
    const values = run?.columns[column];
    if (run !== undefined && values !== undefined) all.push({ column, elapsedS: run.elapsedS, values });
  }
  return all;
}
