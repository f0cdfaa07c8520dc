import { median } from '../numerics/median.ts';
import { pressureMoves } from './pressure-moves.ts';
import type { PressureSeries } from './pressure-series.ts';

/** A stretch in which the system was shut in under pressure: a stage of a standing pressure test, or its last one. */
export interface PressureHold {
  /** First and last reading. */
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly startS: number;
  readonly endS: number;
  /** Pressure at its start, absolute [Pa]. */
  readonly startPa: number;
  /** Whether the log shows how it was filled: else it began before. */
  readonly isFilled: boolean;
  /** Whether a vacuum came before it: then it may be of refrigerant. */
  readonly isAfterVacuum: boolean;
}

// Common practice, no source.
/** So far above the air there is pressure in the system [Pa]: 3 psi. */
export const underPressurePa = 20_000;
/** Shorter than this the valve was not shut [s]. */
const shortestS = 60;
/** Below this share of the air's pressure the system is evacuated. */
const vacuumShare = 0.5;
/** The pressure at an end rests on so many readings. */
export const endReadings = 5;

/**
 * The holds of a standing pressure test, from the pressure alone: between its moves, under pressure.
 *
 * @param atmospherePa of the site [Pa]
 */
export function pressureHolds(series: PressureSeries, atmospherePa: number): PressureHold[] {
  const { elapsedS, testPa } = series;
  const moves = pressureMoves(series);
  const vacuumIndex = testPa.findIndex((pa) => pa < vacuumShare * atmospherePa);
  const holds: PressureHold[] = [];
  for (let place = 0; place <= moves.length; place += 1) {
    const before = place === 0 ? undefined : moves[place - 1];
    const fromIndex = before?.toIndex ?? 0;
    const toIndex = moves[place]?.fromIndex ?? testPa.length - 1;
    const startS = elapsedS[fromIndex];
    const endS = elapsedS[toIndex];
    if (endS - startS < shortestS) continue;
    const startPa = median(testPa.subarray(fromIndex, Math.min(toIndex + 1, fromIndex + endReadings)));
    if (startPa < atmospherePa + underPressurePa) continue;
    holds.push({
      fromIndex,
      toIndex,
      startS,
      endS,
      startPa,
      isFilled: before?.sign === 1,
      isAfterVacuum: vacuumIndex >= 0 && fromIndex > vacuumIndex,
    });
  }
  return holds;
}
