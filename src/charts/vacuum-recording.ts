/** What the vacuum gauge logged on one job, with what it is read against. */
export interface VacuumRecording {
  /** Time since the first of its readings [s], rising. */
  readonly elapsedS: readonly number[];
  /** Absolute pressure [Pa], same length; null where not read or over range. */
  readonly vacuumPa: readonly (number | null)[];
  /** Whether the reading was above the gauge's range, same length. */
  readonly over: readonly boolean[];
}

/** A stretch of the recording. */
export interface PhaseSpan {
  readonly phase: 'pull-down' | 'hold' | 'isolation' | 'break';
  readonly startS: number;
  readonly endS: number;
}

/** A pressure that the recording is held against. */
export interface VacuumLimit {
  readonly label: string;
  /** Absolute pressure [Pa]. */
  readonly pa: number;
  /** Whether it is to be reached by pumping, or not to be passed by the rise. */
  readonly of: 'pull-down' | 'rise';
  /** Of the rise: time after valve-off at which it counts [s]; absent: at the end of the isolation. */
  readonly countsAtS?: number;
}

/** A stretch in which the falling pressure stood. */
export interface VacuumStall {
  readonly startS: number;
  readonly endS: number;
  /** Mean pressure in it, absolute [Pa]. */
  readonly pa: number;
}

/** Times between which the valve was shut [s]. */
export interface ValveOffRange {
  readonly lowS: number;
  readonly highS: number;
}

/**
 * Whether a reading belongs to a span: one at the very end does, unless the next span starts there.
 *
 * @param elapsedS time of the reading, counted as the spans are [s]
 * @param spans all spans of the recording
 */
export function isWithin(elapsedS: number, span: PhaseSpan, spans: readonly PhaseSpan[]): boolean {
  if (elapsedS < span.startS || elapsedS > span.endS) return false;
  return elapsedS < span.endS || !spans.some((next) => next !== span && next.startS === span.endS);
}
