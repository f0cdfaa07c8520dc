/**
 * Refrigerant and lines of a running system on one job. Parallel arrays; null where not read, or where the pressure has no
 * saturation; an array of nothing but null for what was never read.
 */
export interface RunRecording {
  /** Time since the first reading of the run test [s], rising. */
  readonly elapsedS: readonly number[];
  /** Dew point at the suction pressure [K], and the suction line [K]. */
  readonly dewK: readonly (number | null)[];
  readonly suctionLineK: readonly (number | null)[];
  /** Bubble point at the liquid pressure [K], and the liquid line [K]. */
  readonly bubbleK: readonly (number | null)[];
  readonly liquidLineK: readonly (number | null)[];
}

/** The steady stretch whose means are judged. */
export interface SteadySpan {
  readonly startS: number;
  readonly endS: number;
}

/** How far a line is from saturation over the steady stretch, with its 95 % interval [K]. */
export interface SaturationGap {
  readonly k: number;
  readonly lowK: number;
  readonly highK: number;
  /** Means of saturation and line, between which it lies [K]. */
  readonly saturationK: number;
  readonly lineK: number;
}

/** A point of a refrigerant's saturation curve: pressures at which its vapour condenses and its liquid boils [Pa], absolute. */
export interface SaturationPoint {
  readonly temperatureK: number;
  readonly dewPa: number;
  readonly bubblePa: number;
}
