import { meanOf, type RunSeries } from '../../traces/run-series.ts';
import { runningStretches } from '../../traces/running-stretches.ts';

/** A system at rest, its two sides at one pressure. */
export interface RestState {
  readonly pressurePa: number;
  /** How many gauges tell of it. */
  readonly gauges: number;
  /** Of the coldest place that was read: there the liquid is [K]. */
  readonly temperatureK: number;
  /** Standard uncertainty of that [K]. */
  readonly uncertaintyK: number;
}

// Common practice, no source.
/** The last of a rest is looked at: it has had time to settle [s]. */
const lastS = 90;
/** Where it is lower, gauges stand on the air, or the system is empty [Pa]. */
const leastPa = 150_000;
/** Both sides agree within this [ratio], and neither moves by more over it. */
const agreeing = 0.03;
const settled = 0.015;
/** How well air tells the coil that holds the liquid [K], and how much of a difference between the places is left open. */
const coilK = 1.2;
const betweenShare = 0.2;
const mostApartK = 3;
/** Rooms that nobody measured [K], and how far they may be from that. */
const usualRoomK = 296;
const roomSpreadK = 2.5;

/**
 * The system before its first run, where the log shows it at rest; undefined where it does not.
 *
 * @param sidesTell see `runningStretches`
 */
export function restState(series: RunSeries, sidesTell: boolean = true): RestState | undefined {
  const { elapsedS, columns } = series;
  const stretches = runningStretches(series, sidesTell);
  if (stretches === undefined) return undefined;
  // Without a run after it nothing tells a rest from a standing pressure test.
  const [first] = stretches;
  if (first === undefined) return undefined;
  const end = first.fromRow;
  let from = end;
  while (from > 0 && elapsedS[end - 1] - elapsedS[from - 1] <= lastS) from -= 1;
  if (end - from < 4) return undefined;
  const [suctionPa, liquidPa] = [meanOf(columns.suction_pa, from, end), meanOf(columns.liquid_pa, from, end)];
  const known = [suctionPa, liquidPa].filter((pa) => !Number.isNaN(pa));
  if (known.length === 0 || Math.min(...known) < leastPa) return undefined;
  if (Math.max(...known) / Math.min(...known) > 1 + agreeing) return undefined;
  const middle = (from + end) >> 1;
  for (const side of [columns.suction_pa, columns.liquid_pa])
    if (Math.abs(meanOf(side, from, middle) / meanOf(side, middle, end) - 1) > settled) return undefined;
  const outdoorK = meanOf(columns.outdoor_c, from, end) + 273.15;
  const roomC = meanOf(columns.indoor_c, from, end);
  const indoorK = (Number.isNaN(roomC) ? meanOf(columns.return_c, from, end) : roomC) + 273.15;
  const coldest = coldestPlace(outdoorK, indoorK);
  if (coldest === undefined) return undefined;
  return {
    pressurePa: known.reduce((sum, pa) => sum + pa, 0) / known.length,
    gauges: known.length,
    ...coldest,
  };
}

/** Where the liquid is, by the air of both places; of one alone it is not known that it is the colder one. */
function coldestPlace(outdoorK: number, indoorK: number): Pick<RestState, 'temperatureK' | 'uncertaintyK'> | undefined {
  if (Number.isNaN(outdoorK)) return undefined;
  const otherK = Number.isNaN(indoorK) ? usualRoomK : indoorK;
  const temperatureK = Math.min(outdoorK, otherK);
  const openK = betweenShare * Math.min(Math.abs(outdoorK - otherK), mostApartK);
  const roomK = Number.isNaN(indoorK) && outdoorK > usualRoomK - roomSpreadK ? roomSpreadK : 0;
  return { temperatureK, uncertaintyK: Math.hypot(coilK, openK, roomK) };
}
