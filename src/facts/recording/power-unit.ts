import { runningStretches } from '../../traces/running-stretches.ts';
import type { MeasuredMaterial } from '../job-material.ts';
import type { ScannedSeries } from './scanned-series.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';

// Common practice, no source.
/** No compressor runs on so little [W], and none of the trade takes more kilowatts than the same number tells. */
const leastW = 45;
/** It takes more than this [kW]. */
const leastKw = 0.15;
/** Both pressures tell a run of so long [s]. */
const shortestS = 120;

/** Whether the power of the compressor is in kilowatts: by its pressures it ran, and took next to nothing. */
export function powerUnit(
  all: readonly ScannedSeries[],
  { run, job }: Pick<MeasuredMaterial, 'run' | 'job'>,
): UnitSuspicion | undefined {
  const power = all.find(({ series }) => series.column === 'compressor_w');
  if (run === undefined || power === undefined || !(power.scan.most < leastW && power.scan.most > leastKw))
    return undefined;
  const { compressor_w: powerW, ...columns } = run.columns;
  const stretches = runningStretches({ ...run, columns }, job?.metering_location !== 'outdoor') ?? [];
  const ran = stretches.some(({ fromRow, toRow }) => {
    const isLong = run.elapsedS[toRow] - run.elapsedS[fromRow] >= shortestS;
    return isLong && (powerW?.[toRow] ?? 0) > leastKw;
  });
  return ran
    ? { column: 'compressor_w', sign: 'power', said: 'W', likely: 'kW', factor: 1000, isSure: true }
    : undefined;
}
