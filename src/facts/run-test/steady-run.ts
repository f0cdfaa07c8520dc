import type { FastSaturation } from '../../physics/tables/fast-saturation.ts';
import { meanOf, type RunSeries } from '../../traces/run-series.ts';
import type { RunningStretch } from '../../traces/running-stretches.ts';
import { type SteadySignal, type SteadyWindow, steadyWindow } from '../../traces/steady-window.ts';

/** Before a reading counts a system has run so long [s]. Source: `title-24-ra3-2`. */
export const stabilisingS = 900;

// Common practice, no source.
/** By how much lines and saturation may drift over a window [K]. */
const mostLineDriftK = 1.2;
const mostSaturationDriftK = 0.8;

/** Means over the last steady window of a run; NaN where not read. */
export interface SteadyRun {
  readonly window: SteadyWindow;
  readonly suctionPa: number;
  readonly liquidPa: number;
  /** Saturation at the pressures, the mean over the window [K]. */
  readonly dewK: number;
  readonly bubbleK: number;
  readonly suctionLineK: number;
  readonly liquidLineK: number;
  readonly outdoorK: number;
  readonly indoorK: number;
  readonly wetBulbK: number;
  readonly splitK: number;
  readonly compressorW: number;
}

/**
 * The last steady window of a run, once it has run for a quarter of an hour, and for as long after the last change of the charge.
 *
 * @param changedS when the charge was last changed [s]; −infinity where it was not
 */
export function steadyRun(
  { elapsedS, columns }: RunSeries,
  { fromRow, toRow }: RunningStretch,
  changedS: number,
  curve: FastSaturation,
): SteadyRun | undefined {
  const kelvin = (celsius: Float64Array | undefined) => celsius?.map((value) => value + 273.15);
  const dewK = columns.suction_pa?.map((pa) => curve.dewK(pa));
  const bubbleK = columns.liquid_pa?.map((pa) => curve.bubbleK(pa));
  const suctionK = kelvin(columns.suction_line_c);
  const liquidK = kelvin(columns.liquid_line_c);
  const signal = (values: Float64Array | undefined, mostDrift: number): SteadySignal[] =>
    values === undefined || Number.isNaN(meanOf(values, fromRow, toRow + 1)) ? [] : [{ values, mostDrift }];
  const signals = [
    ...signal(dewK, mostSaturationDriftK),
    ...signal(bubbleK, mostSaturationDriftK),
    ...signal(suctionK, mostLineDriftK),
    ...signal(liquidK, mostLineDriftK),
  ];
  const sinceS = Math.max(elapsedS[fromRow], changedS);
  const window =
    signals.length === 0 ? undefined : steadyWindow(elapsedS, signals, sinceS + 240, sinceS + stabilisingS, toRow);
  if (window === undefined) return undefined;
  const mean = (values: Float64Array | undefined) => meanOf(values, window.fromRow, window.toRow);
  const celsius = (values: Float64Array | undefined) => mean(values) + 273.15;
  const returnC = mean(columns.return_c);
  const indoorC = mean(columns.indoor_c);
  const roomC = Number.isNaN(returnC) ? indoorC : returnC;
  return {
    window,
    suctionPa: mean(columns.suction_pa),
    liquidPa: mean(columns.liquid_pa),
    dewK: mean(dewK),
    bubbleK: mean(bubbleK),
    suctionLineK: mean(suctionK),
    liquidLineK: mean(liquidK),
    outdoorK: celsius(columns.outdoor_c),
    indoorK: roomC + 273.15,
    wetBulbK: celsius(columns.indoor_wet_bulb_c),
    splitK: roomC - mean(columns.supply_c),
    compressorW: mean(columns.compressor_w),
  };
}
