import { PullDownTable } from '../../physics/pull-down-table.ts';
import { tubePassage } from '../../physics/tube-passage.ts';
import { valveCore } from '../../physics/valve-core.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { MeasuredRecords } from '../job-material.ts';

/**
 * Pressure below which no pump in service pulls [Pa]: two-stage vane pumps reach some 2 to 5 Pa. Common practice, no
 * source. It only matters near it: of 300 Pa it takes 1 %.
 */
export const pumpFloorPa = 3;

/** So many pump trains are kept; a shop has tens. */
const mostTables = 256;
const tables = new Map<string, PullDownTable>();

/**
 * What the recorded pump, hose and cores should do with dry gas, or what the record lacks for that.
 *
 * One hose, and at most one core. Where the record does not say whether the cores were out they count as out: that is
 * how the trade teaches it, and what the gear could do; a core left in then shows as slow pumping instead of hiding in
 * the prediction. Whoever judges by it should say so (`cores_removed` of the record).
 *
 * @returns the table of the pump train, from a cache; or the problem
 */
export function predictedPullDown(
  job: MeasuredRecords['job'],
): PullDownTable | Extract<Facts['prediction_problem'], 'no-pump' | 'no-hose'> {
  const speedLPerS = job?.pump_speed_l_per_s ?? 0;
  if (!(speedLPerS > 0)) return 'no-pump';
  const { hose_bore_mm: boreMm = 0, hose_length_m: lengthM = 0, cores_removed: coresRemoved = true } = job ?? {};
  if (!(boreMm > 0 && lengthM > 0)) return 'no-hose';
  const key = `${speedLPerS} ${boreMm} ${lengthM} ${coresRemoved}`;
  const kept = tables.get(key);
  if (kept !== undefined) return kept;
  const hose = tubePassage(boreMm / 1000, lengthM);
  const table = new PullDownTable({
    pumpSpeedM3PerS: speedLPerS / 1000,
    floorPa: pumpFloorPa,
    passages: coresRemoved ? [hose] : [tubePassage(valveCore.boreM, valveCore.lengthM), hose],
  });
  const [oldest] = tables.keys();
  if (tables.size >= mostTables && oldest !== undefined) tables.delete(oldest);
  tables.set(key, table);
  return table;
}
