import type { Facts } from '../../records/tables/facts.ts';
import type { RunSeries } from '../../traces/run-series.ts';

// Common practice, no source.
/** A compressor that runs takes more than this [W]. */
const runningW = 80;
/** Below this share of the air's pressure it runs in a vacuum, whatever the gauge is good for. */
const vacuumShare = 0.9;
/** Two readings of one moment lie no farther apart [s]. */
const togetherS = 15;
/** Between two readings that are no farther apart it went on as at both [s]. */
const unseenS = 180;

/** Whether the compressor ran while the system was below the pressure of the air, by the suction gauge or the vacuum gauge. */
export function vacuumRunFacts(series: RunSeries | undefined, atmospherePa: number): Partial<Facts> {
  const powerW = series?.columns.compressor_w;
  if (series === undefined || powerW === undefined) return {};
  const { elapsedS, columns, vacuumPa } = series;
  const mostPa = vacuumShare * atmospherePa;
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
    readings += 1;
    // A vacuum gauge may have been shut off and left on: where the suction was read, that tells.
    const last = atS - suction.atS <= togetherS ? suction : vacuum;
    const isVacuum = atS - last.atS <= togetherS && last.pa < mostPa && powerW[row] >= runningW;
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
