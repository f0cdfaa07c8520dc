import { nitrogenPressureAfter } from '../../physics/nitrogen-pressure-after.ts';

/** The slope is taken over so much [K]: it is all but the same over tens of kelvins. */
const apartK = 5;

/**
 * What a kelvin more does to shut-in nitrogen [Pa/K].
 *
 * @param pressurePa absolute [Pa]; @param temperatureK [K]
 */
export function nitrogenPaPerK(pressurePa: number, temperatureK: number): number {
  const endPa = nitrogenPressureAfter({ startPa: pressurePa, startK: temperatureK, endK: temperatureK + apartK });
  return (endPa - pressurePa) / apartK;
}
