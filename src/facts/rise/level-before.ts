import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import type { LevelBefore } from './rise-samples.ts';

// Common practice, no source; set on simulated fleets (tests/truth).
/** The level before valve-off rests on so many readings; they agree within this ratio at best. */
const readingsBefore = 10;
const leastDeviation = 0.004;
const leastDeviationPa = 0.05;

/** The level before valve-off, with the scatter of the readings there. */
export function levelBefore(
  { vacuumPa }: VacuumSeries,
  fromIndex: number,
  isolationPa: number,
  stepPa: number,
): LevelBefore {
  const readings = vacuumPa.subarray(Math.max(0, fromIndex + 1 - readingsBefore), fromIndex + 1);
  let apart = 0;
  for (const pa of readings) apart += Math.min(Math.abs(pa - isolationPa), isolationPa);
  // 1.25 mean deviations make a standard one.
  return levelOf(isolationPa, (1.25 * apart) / readings.length, readings.length, stepPa);
}

/**
 * A level before valve-off, with what it is known to.
 *
 * @param scatterPa standard deviation of single readings [Pa]
 */
export function levelOf(pa: number, scatterPa: number, readings: number, stepPa: number): LevelBefore {
  const deviationPa = scatterPa / Math.sqrt(Math.min(4, readings));
  return { pa, deviationPa: Math.max(deviationPa, leastDeviation * pa, stepPa / 4, leastDeviationPa) };
}
