import type { RunSeries } from './run-series.ts';

/** A stretch of rows over which the compressor ran, ends included. */
export interface RunningStretch {
  readonly fromRow: number;
  readonly toRow: number;
}

// Common practice, no source.
/** A compressor takes more than a fan or a heater of its oil [W], and more than this share of the most it took. */
const leastW = 150;
const leastShare = 0.12;
/** Without its power: a running system keeps its sides so far apart [ratio]. */
const apartRatio = 1.35;
/** … and so far [Pa], both of them above the air: a vacuum's noise makes any ratio. */
const apartPa = 150_000;
const leastPa = 115_000;
/** A stop that is no longer is none of its own [s]: a reading was missed. */
const pauseS = 45;
/** Where nothing was read for so long no stop is taken to hide [s]: a compressor that stopped rests longer. */
export const unseenS = 180;

/**
 * Where the compressor ran, by its power, else by what the source says, else by the two pressures.
 *
 * @param sidesTell false where both sides have nearly one pressure while it runs, as with a metering device outdoors
 * @returns in order of time; undefined where nothing tells
 */
export function runningStretches(
  { elapsedS, columns, mode }: RunSeries,
  sidesTell: boolean = true,
): RunningStretch[] | undefined {
  const { compressor_w: powerW, suction_pa: suctionPa, liquid_pa: liquidPa } = columns;
  const fromW = runningW(powerW);
  const isPower = powerW !== undefined && fromW !== undefined;
  const isPressed = sidesTell && suctionPa !== undefined && liquidPa !== undefined;
  const isSaid = mode !== undefined && mode.some((place) => place > 0) && mode.some((place) => place === 0);
  if (!isPower && !isPressed && !isSaid) return undefined;
  const stretches: { fromRow: number; toRow: number }[] = [];
  let isStopSeen = false;
  for (let row = 0; row < elapsedS.length; row += 1) {
    // It runs from 1 on.
    const told = isPower ? powerW[row] / fromW : isSaid ? mode[row] : apart(liquidPa?.[row], suctionPa?.[row]);
    if (told < 1) isStopSeen = true;
    if (!(told >= 1)) continue;
    const last = stretches.length === 0 ? undefined : stretches[stretches.length - 1];
    const mostS = isStopSeen ? pauseS : unseenS;
    if (last !== undefined && elapsedS[row] - elapsedS[last.toRow] <= mostS) last.toRow = row;
    else stretches.push({ fromRow: row, toRow: row });
    isStopSeen = false;
  }
  return stretches.filter(({ fromRow, toRow }) => toRow > fromRow);
}

/** How far the sides are apart, against what a running system keeps them; where the columns were swapped all the same. */
function apart(onePa = Number.NaN, otherPa = Number.NaN): number {
  const highPa = Math.max(onePa, otherPa);
  const lowPa = Math.min(onePa, otherPa);
  return lowPa < leastPa ? 0 : Math.min(highPa / lowPa / apartRatio, (highPa - lowPa) / apartPa);
}

/** The power from which a compressor runs [W]; undefined where it never took any. */
export function runningW(powerW: Float64Array | undefined): number | undefined {
  if (powerW === undefined) return undefined;
  let mostW = 0;
  for (let row = 0; row < powerW.length; row += 1) if (powerW[row] > mostW) mostW = powerW[row];
  return mostW > 0 ? Math.max(leastW, leastShare * mostW) : undefined;
}
