import { waterVapourPressure } from '../physics/water-vapour-pressure.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { LineTemperature } from './job-material.ts';

/** No pipe of a job is colder or warmer [K]: what lies beyond is a clamp that was not connected. */
const coldestK = 213;
const warmestK = 400;

/** The pipe's temperature while the vacuum was read, and the vapour pressure of water at its coldest. */
export function lineFacts(line: LineTemperature | undefined): Partial<Facts> {
  if (line === undefined || !(line.lowK >= coldestK && line.meanK >= coldestK)) return {};
  if (!(line.lowK <= warmestK && line.meanK <= warmestK)) return {};
  return { line_k: line.meanK, line_low_k: line.lowK, water_vapour_pa: waterVapourPressure(line.lowK) };
}
