/** What left a cylinder by the scale beneath it: how far the scale stood below its stand before. Parallel arrays. */
export interface DrawnMass {
  /** Time since the first reading of the scale [s], rising. */
  readonly elapsedS: readonly number[];
  /** [kg]; below 0 where the scale showed more than in that stand. */
  readonly drawnKg: readonly number[];
}

/** What the scale logged on one job. */
export interface ScaleRecording {
  /** As read. */
  readonly read: DrawnMass;
  /** Without what moved the scale and was no refrigerant. */
  readonly corrected: DrawnMass;
}

/** Something that moved the scale. */
export interface ScaleMove {
  readonly startS: number;
  readonly endS: number;
  /** What it left added to the readings [kg]; 0 where they came back. */
  readonly shiftKg: number;
  /** The most that the readings went aside [kg]. */
  readonly asideKg: number;
  /** Whether it counts as flow, though a hand or a hose may have done it; others are taken out. */
  readonly isFlow: boolean;
}

/** A stretch in which nothing flowed. */
export interface ScaleStandSpan {
  readonly startS: number;
  readonly endS: number;
}

/** What flowed off the scale, with its 95 % interval [kg]. */
export interface DrawnFlow {
  readonly startS: number;
  readonly endS: number;
  readonly kg: number;
  readonly lowKg: number;
  readonly highKg: number;
  readonly before: ScaleStandSpan;
  readonly after: ScaleStandSpan;
}
