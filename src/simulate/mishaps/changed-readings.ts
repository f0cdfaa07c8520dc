import type { JobReadings } from '../job-log.ts';

type Column = Exclude<keyof JobReadings, 'elapsedS'>;

/** The readings with one column changed; NaN and above range stay where the change leaves them. */
export function scaled(readings: JobReadings, column: Column, change: (value: number) => number): JobReadings {
  const values = readings[column];
  return values === undefined ? readings : { ...readings, [column]: values.map(change) };
}

/** The readings without those from one time to another [s]. */
export function rowsWithout(readings: JobReadings, fromS: number, toS: number): JobReadings {
  return reordered(
    readings,
    Array.from(readings.elapsedS.keys()).filter(
      (row) => !(readings.elapsedS[row] > fromS && readings.elapsedS[row] < toS),
    ),
    readings.elapsedS,
  );
}

/** The readings as they are kept where the clock was set by so much from a time on [s]: in the order of their times. */
export function shiftedFrom(readings: JobReadings, atS: number, byS: number): JobReadings {
  const shown = readings.elapsedS.map((each) => (each >= atS ? each + byS : each));
  const rows = Array.from(shown.keys()).toSorted((a, b) => shown[a] - shown[b] || a - b);
  return reordered(readings, rows, shown);
}

/** A column that repeats the value it has at one time until another [s]; undefined where it was not read then. */
export function standing(readings: JobReadings, column: Column, fromS: number, toS: number): JobReadings | undefined {
  const values = readings[column]?.slice();
  const { elapsedS } = readings;
  const from = elapsedS.findIndex((atS, row) => atS >= fromS && Number.isFinite(values?.[row]));
  if (values === undefined || from < 0 || elapsedS[from] > fromS + 30) return undefined;
  const held = values[from];
  let changed = 0;
  for (let row = from; row < values.length && elapsedS[row] <= toS; row += 1) {
    if (Number.isNaN(values[row])) continue;
    if (values[row] !== held) changed += 1;
    values[row] = held;
  }
  // Where it would have stood anyhow, nothing happened.
  return changed < 20 ? undefined : { ...readings, [column]: values };
}

/** Those rows of the readings, in that order, at the times given. */
export function reordered(readings: JobReadings, rows: readonly number[], elapsedS: Float64Array): JobReadings {
  const pick = (values: Float64Array) => Float64Array.from(rows, (row) => values[row]);
  const columns = Object.entries(readings).map(([name, values]) => [
    name,
    values === undefined ? undefined : pick(name === 'elapsedS' ? elapsedS : (values as Float64Array)),
  ]);
  return Object.fromEntries(columns);
}
