import type { MatchedColumn } from '../../records/recording-columns.ts';
import type { MeasuredMaterial } from '../job-material.ts';

/** One gauge's pressures of a job. */
export interface JobCurve {
  readonly column: MatchedColumn;
  /** The gauge's name in the readings; null where the job has one gauge only. */
  readonly gauge: string | null;
  /** [s], ascending. */
  readonly elapsedS: Float64Array;
  /** [Pa]: NaN not read, +Infinity above the range. */
  readonly pa: Float64Array;
}

/** The pressure curves of a job: those of its vacuum gauges and of its pressure test. */
export function jobCurves({ series, pressure }: Pick<MeasuredMaterial, 'series' | 'pressure'>): JobCurve[] {
  const curves: JobCurve[] = series.map(({ gauge, elapsedS, vacuumPa: pa }) => ({
    column: 'vacuum_pa',
    gauge,
    elapsedS,
    pa,
  }));
  if (pressure !== undefined)
    curves.push({ column: 'test_pressure_pa', gauge: null, elapsedS: pressure.elapsedS, pa: pressure.testPa });
  return curves.filter(({ pa }) => pa.some((value) => value > 0 && value !== Number.POSITIVE_INFINITY));
}
