import type { RunSeries } from './run-series.ts';

/** A stretch of rows over which the compressor ran, ends included. */
export interface RunningStretch {
  readonly fromRow: number;
  readonly toRow: number;
}

// Common practice, no source.
/** A compressor takes more than a fan [W], and more than this share of the most it took. */
const leastW = 80;
const leastShare = 0.12;
/** Without its power: a running system keeps its sides so far apart [ratio]. */
const apartRatio = 1.35;
/** A stop that is no longer is none of its own [s]: a reading was missed. */
const pauseS = 45;

/** Where the compressor ran, by its power, else by what the source says, else by the two pressures; undefined where none tells. */
export function runningStretches({ elapsedS, columns, mode }: RunSeries): RunningStretch[] | undefined {
  const { compressor_w: powerW, suction_pa: suctionPa, liquid_pa: liquidPa } = columns;
  const mostW = powerW === undefined ? 0 : powerW.reduce((most, watts) => (watts > most ? watts : most), 0);
  const fromW = Math.max(leastW, leastShare * mostW);
  const isPower = powerW !== undefined && mostW > 0;
  const isPressed = suctionPa !== undefined && liquidPa !== undefined;
  const isSaid = mode !== undefined && mode.some((place) => place > 0) && mode.some((place) => place === 0);
  if (!isPower && !isPressed && !isSaid) return undefined;
  const stretches: { fromRow: number; toRow: number }[] = [];
  for (let row = 0; row < elapsedS.length; row += 1) {
    const ratio = (liquidPa?.[row] ?? Number.NaN) / (suctionPa?.[row] ?? Number.NaN);
    // Where the columns were swapped, the sides are apart all the same.
    const isApart = Math.max(ratio, 1 / ratio) >= apartRatio;
    const runs = isPower ? powerW[row] >= fromW : isSaid ? mode[row] > 0 : isApart;
    if (!runs) continue;
    const last = stretches.at(-1);
    if (last !== undefined && elapsedS[row] - elapsedS[last.toRow] <= pauseS) last.toRow = row;
    else stretches.push({ fromRow: row, toRow: row });
  }
  return stretches.filter(({ fromRow, toRow }) => toRow > fromRow);
}
