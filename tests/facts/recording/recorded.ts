import type { MeasuredMaterial } from '../../../src/facts/job-material.ts';
import { scannedSeries } from '../../../src/facts/recording/scanned-series.ts';
import { Random } from '../../../src/numerics/random.ts';
import type { RecordedColumn } from '../../../src/records/recording-columns.ts';

/** A column of a log written out: a reading every so many seconds, by what is shown at a time. */
export function recorded(
  column: RecordedColumn,
  shown: (atS: number) => number,
  { everyS = 2, readings = 400, atS = (index: number) => index * everyS } = {},
) {
  const elapsedS = Float64Array.from({ length: readings }, (_, index) => atS(index));
  return scannedSeries({ column, elapsedS, values: elapsedS.map((each) => shown(each)) });
}

/** Noise of one deviation, in steps. */
export function noisy(shown: (atS: number) => number, { deviation = 0, ratio = 0, step = 0, seed = 1 } = {}) {
  const random = new Random(seed);
  return (atS: number) => {
    const value = shown(atS);
    const read = value * (1 + random.normal(0, ratio || 1e-12)) + random.normal(0, deviation || 1e-12);
    return step === 0 ? read : Math.round(read / step) * step;
  };
}

/** A pull-down to a floor [Pa]. */
export const pulled = (atS: number) => 4 + 2000 * Math.exp(-atS / 90);

/** Nothing on record, no readings but those of the columns. */
export const noRecord: MeasuredMaterial = { series: [], marks: [] };
