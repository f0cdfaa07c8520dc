import { waterVapourPressure } from '../physics/water-vapour-pressure.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { LineTemperature } from './job-material.ts';

/** No pipe of a job is colder or warmer [K]: what lies beyond is a clamp that was not connected. */
const coldestK = 213;
const warmestK = 400;

/** Whether a clamp that shows so much [K] was connected; false for NaN. */
export function isPipeTemperature(lineK: number): boolean {
  return lineK >= coldestK && lineK <= warmestK;
}

/** The pipe's temperature while the vacuum was read, and the vapour pressure of water at its coldest. */
export function lineFacts(line: LineTemperature | undefined): Partial<Facts> {
  if (line === undefined || !isPipeTemperature(line.lowK) || !isPipeTemperature(line.meanK)) return {};
  return { line_k: line.meanK, line_low_k: line.lowK, water_vapour_pa: waterVapourPressure(line.lowK) };
}
