import { type RecordedSeries, type SeriesScan, scanSeries } from '../../traces/recorded-series.ts';
import { plausibleLimits } from './plausible-limits.ts';

/** A column of a job with what one look at all of its readings showed. */
export interface ScannedSeries {
  readonly series: RecordedSeries;
  readonly scan: SeriesScan;
}

/** Looks once at every reading of a column; outside counts what is beyond its plausible limits. */
export function scannedSeries(series: RecordedSeries): ScannedSeries {
  const { low, high } = plausibleLimits[series.column];
  return { series, scan: scanSeries(series, low, high) };
}
