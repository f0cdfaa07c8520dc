import { waterVapourPressure } from '../../physics/water-vapour-pressure.ts';
import type { LineTemperature } from '../job-material.ts';
import { lineFacts } from '../line-facts.ts';
import type { RiseOutlook } from './rise-basis.ts';

// Common practice, no source; set on simulated fleets (tests/truth).
/** A clamp shows one place: vapour may come off where it is 40 °C [K] … */
const warmestK = 313.15;
/** … and gauges that tell pressure by conduction of heat read it up to so many times too high; from memory. */
const overreading = 2;
/** Where the log begins isolated, the pump may have been on for so long [s]: the longer, the more outgassing is like a leak. */
const unknownPumpedS = 3600;
const leastPumpedS = 60;

/**
 * What may come in beside a leak.
 *
 * @param pumpedS how long the pump had been on [s]; undefined where that is not known
 * @param line what the pipe clamp showed
 */
export function riseOutlook(pumpedS: number | undefined, line?: LineTemperature): RiseOutlook {
  return {
    pumpedS: Math.max(leastPumpedS, pumpedS ?? unknownPumpedS),
    mostVapourPa: overreading * waterVapourPressure(Math.max(lineFacts(line).line_k ?? 0, warmestK)),
  };
}
