/** What the gauge of a standing pressure test logged on one job. Parallel arrays; pressures absolute. */
export interface PressureRecording {
  /** Time since the first of its readings [s], rising. */
  readonly elapsedS: readonly number[];
  /** [Pa] */
  readonly testPa: readonly number[];
}

/** What is judged of a hold, in means over equal times. Parallel arrays. */
export interface CorrectedHold {
  /** Time since the first reading of the test [s], rising. */
  readonly elapsedS: readonly number[];
  /** What a tight system would have shown by the temperature of the pipe, absolute [Pa]. */
  readonly expectedPa: readonly number[];
  /** What was read beside that [Pa]: below 0 where something is lost. */
  readonly besidePa: readonly number[];
}

/** A stretch in which the system stood shut in under pressure. */
export interface PressureHoldSpan {
  readonly startS: number;
  readonly endS: number;
}

/** The hold that is judged, from when on the gas has settled [s]. */
export interface JudgedHoldSpan extends PressureHoldSpan {
  readonly settledS: number;
}

/** A drop that temperature does not explain, with its 95 % interval [Pa]. */
export interface DropRange {
  readonly pa: number;
  readonly lowPa: number;
  readonly highPa: number;
}

/** A pressure that the test is held against, absolute [Pa]. */
export interface PressureLimit {
  readonly label: string;
  readonly pa: number;
}
