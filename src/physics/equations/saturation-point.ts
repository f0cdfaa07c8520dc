import type { BoundaryGoal, BoundaryKind } from './boundary-start.ts';
import type { Mixture } from './mixture.ts';
import { type BoundaryPoint, type NotConverged, PhaseBoundary } from './phase-boundary.ts';
import { isStable } from './phase-stability.ts';

/**
 * The bubble or dew point of a mixture at a temperature [K] or a pressure [Pa], absolute: found, and tried for being an
 * equilibrium.
 */
export function saturationPoint(
  mixture: Mixture,
  kind: BoundaryKind,
  goal: BoundaryGoal,
  value: number,
): BoundaryPoint | NotConverged {
  const point = new PhaseBoundary(mixture, kind).at(goal, value);
  if (!point.converged) return point;
  const { temperatureK, pressurePa, lnFugacity } = point;
  if (isStable(mixture, temperatureK, pressurePa, lnFugacity)) return point;
  return { converged: false, reason: 'two-liquids', lastK: temperatureK, lastPa: pressurePa };
}
