import type { Facts } from '../../records/tables/facts.ts';
import type { RunSeries } from '../../traces/run-series.ts';
import { runningW, unseenS } from '../../traces/running-stretches.ts';
import type { MeasuredRecords } from '../job-material.ts';
import { pressureUncertainty } from './run-uncertainty.ts';

// Common practice, no source.
/** Below this share of the air's pressure it runs in a vacuum, … */
const vacuumShare = 0.9;
/** … by the suction gauge, where it is below the air by what that gauge is good for, too. */
const sure = 1.96;
/** Two readings of one moment lie no farther apart [s]. */
const togetherS = 15;

/**
 * Whether the compressor ran while the system was below the pressure of the air, by the suction gauge or the vacuum gauge.
 * Only readings of its power with a pressure beside them count.
 */
export function vacuumRunFacts(
  series: RunSeries | undefined,
  atmospherePa: number,
  job?: MeasuredRecords['job'],
): Partial<Facts> {
  const powerW = series?.columns.compressor_w;
  if (series === undefined || powerW === undefined) return {};
  const { elapsedS, columns, vacuumPa } = series;
  const fromW = runningW(powerW) ?? Number.POSITIVE_INFINITY;
  const vacuumPaAtMost = vacuumShare * atmospherePa;
  const gaugePa = sure * pressureUncertainty(job, 'suction', atmospherePa);
  const suctionPaAtMost = Math.min(vacuumPaAtMost, atmospherePa - gaugePa);
  let readings = 0;
  let ranS = 0;
  let lowestPa = Number.POSITIVE_INFINITY;
  let suction = { pa: Number.NaN, atS: Number.NEGATIVE_INFINITY };
  let vacuum = suction;
  let before = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < elapsedS.length; row += 1) {
    const atS = elapsedS[row];
    const [suctionPa, seenPa] = [columns.suction_pa?.[row] ?? Number.NaN, vacuumPa?.[row] ?? Number.NaN];
    if (!Number.isNaN(suctionPa)) suction = { pa: suctionPa, atS };
    if (!Number.isNaN(seenPa)) vacuum = { pa: seenPa, atS };
    if (Number.isNaN(powerW[row])) continue;
    // A vacuum gauge may have been shut off and left on: where the suction was read, that tells.
    const last = atS - suction.atS <= togetherS ? suction : vacuum;
    if (!(atS - last.atS <= togetherS)) continue;
    readings += 1;
    const isVacuum = last.pa < (last === suction ? suctionPaAtMost : vacuumPaAtMost) && powerW[row] >= fromW;
    if (isVacuum) {
      if (atS - before <= unseenS) ranS += atS - before;
      before = atS;
      lowestPa = Math.min(lowestPa, last.pa);
    } else before = Number.NEGATIVE_INFINITY;
  }
  if (readings === 0) return {};
  return {
    compressor_readings: readings,
    vacuum_run_s: ranS,
    ...(ranS === 0 ? {} : { vacuum_run_pa: lowestPa }),
  };
}
