import { minutes } from './minutes.ts';

/** How the time axis of a chart counts. */
export interface ChartTime {
  readonly unit: 'minutes' | 'hours';
  /** Seconds in that unit, as charts draw them. */
  readonly of: (seconds: number) => number;
}

/** From so long on hours are read more easily [s]. */
const hoursFromS = 3 * 3600;

/**
 * Minutes, or hours where a recording is long.
 *
 * @param lengthS of what is drawn [s]
 * @example chartTime(36000).of(5400) // 1.5
 */
export function chartTime(lengthS: number): ChartTime {
  if (lengthS < hoursFromS) return { unit: 'minutes', of: minutes };
  return { unit: 'hours', of: (seconds) => Math.round(seconds / 3.6) / 1000 };
}
