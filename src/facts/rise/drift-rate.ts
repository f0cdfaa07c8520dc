import type { LineTemperature } from '../job-material.ts';
import { lineFacts } from '../line-facts.ts';

// Common practice, no source; set on simulated fleets (tests/truth).
/** Gauge and gas drift by this ratio of the pressure over a test of so long [s], a longer one by as much more, up to … */
const driftRatio = 0.002;
const driftS = 900;
const mostDriftRatio = 0.03;

/**
 * How fast gauge and gas drift over a rise test: as the pipe showed, and no less than is usual.
 *
 * @param testS length of the test [s]
 * @param meanPa mean of its pressure [Pa]
 * @param line what the pipe clamp showed
 * @returns drift [Pa/s], one standard deviation
 */
export function driftRate(testS: number, meanPa: number, line?: LineTemperature): number {
  return (driftShare(testS, line) * meanPa) / testS;
}

function driftShare(testS: number, line: LineTemperature | undefined): number {
  const usual = Math.min(mostDriftRatio, driftRatio * Math.max(1, testS / driftS));
  const { line_k: meanK, line_low_k: lowK } = lineFacts(line);
  return meanK === undefined || lowK === undefined ? usual : Math.max(driftRatio, (2 * (meanK - lowK)) / meanK);
}
