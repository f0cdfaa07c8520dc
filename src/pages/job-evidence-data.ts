import type { SharedCurve } from '../charts/shared-curve-trace.ts';
import type { Outcome } from '../checks/check.ts';
import type { FittedRise } from '../charts/fitted-rise.ts';
import type {
  CorrectedHold,
  DropRange,
  JudgedHoldSpan,
  PressureHoldSpan,
  PressureLimit,
  PressureRecording,
} from '../charts/pressure-recording.ts';
import type { RunRecording, SaturationGap, SaturationPoint, SteadySpan } from '../charts/run-recording.ts';
import type { DrawnFlow, ScaleMove, ScaleRecording } from '../charts/scale-recording.ts';
import type { PhaseSpan, VacuumLimit, VacuumStall, ValveOffRange } from '../charts/vacuum-recording.ts';

/** One job, what was found on it, and the recording that shows it. */
export interface JobEvidence {
  jobId: string;
  /** ISO 8601 with an offset. */
  startedAt: string;
  technician: string;
  crewId: string | null;
  systemId: string | null;
  siteId: string | null;
  refrigerant: string | null;
  workType: string | null;
  /** Whether both leak tests tell the same, in a sentence; empty where they do, or cannot be held against each other. */
  contradiction: string;
  /** What happened, in paragraphs; empty where nothing was measured yet. */
  story: string[];
  findings: JobFinding[];
  /** The standing pressure test; null where none was read. */
  pressureTest: PressureEvidence | null;
  /** The vacuum, decimated to some 600 readings; its times, and those below, count from the first of its readings. */
  trace: { elapsedS: number[]; vacuumPa: (number | null)[]; over: boolean[] } | null;
  phases: PhaseSpan[];
  limits: VacuumLimit[];
  /** The isolation that was judged; null where none was. */
  isolation: PhaseSpan | null;
  /** What was fitted to it; null where nothing was. */
  fitted: FittedRise | null;
  /** Where the falling pressure stood; null where it did not. */
  stall: VacuumStall | null;
  /** Between which times the valve was shut, where that is not sharp; otherwise null. */
  valveOff: ValveOffRange | null;
  /** The weigh-in by the scale; null where none was read. */
  scale: ScaleEvidence | null;
  /** The run test; null where nothing of it can be drawn. */
  run: RunEvidence | null;
  /** Some of the readings that another job has as well; null where none has. */
  shared: SharedCurve | null;
}

/** The weigh-in of a job by its scale, decimated to some 300 readings. Times count from the first of them. */
export interface ScaleEvidence extends ScaleRecording {
  /** What moved the scale, in order. */
  moves: ScaleMove[];
  /** What flowed off it; null where that cannot be told. */
  flow: DrawnFlow | null;
  /** Where the scale stood before, from which masses count [kg]. */
  beforeKg: number;
  /** What the charge was judged by, where that is another mass than what flowed; otherwise null. */
  counted: CountedMass | null;
}

/** A mass that what was written down was needed for. */
export interface CountedMass {
  kg: number;
  /** Whether it is the scale's without some sudden steps, which the written figure has not; otherwise the written figure itself. */
  isScale: boolean;
}

/** The run test of a job. Times count from the first of its readings; pressures are absolute. */
export interface RunEvidence {
  /** Decimated to some 300 readings; without the liquid side where that line carries two phases. */
  trace: RunRecording;
  /** Pressure of the air, from which gauges count [Pa]. */
  atmospherePa: number;
  /** When the last run began [s]; null where that was not seen. */
  startS: number | null;
  /** The steady stretch that is judged; null where there is none. */
  steady: SteadySpan | null;
  /** Null where they cannot be told. */
  superheat: SaturationGap | null;
  subcooling: SaturationGap | null;
  /** Whether the liquid line carries liquid and vapour, the metering device being outdoors. */
  isTwoPhase: boolean;
  /** Null where nothing was steady. */
  means: RunMeans | null;
  /** Saturation of the refrigerant around what was steady, by rising temperature; null where it, or all of that, is not known. */
  curve: SaturationPoint[] | null;
}

/** Means over the steady stretch, and the targets; null where not read, or not known. */
export interface RunMeans {
  suctionPa: number | null;
  dewK: number | null;
  suctionLineK: number | null;
  targetSuperheatK: number | null;
  liquidPa: number | null;
  bubbleK: number | null;
  liquidLineK: number | null;
  targetSubcoolingK: number | null;
  outdoorK: number | null;
  /** The air that returns. */
  indoorK: number | null;
  indoorWetBulbK: number | null;
  /** Air that returns less air supplied. */
  splitK: number | null;
  compressorW: number | null;
}

/** The standing pressure test of a job. Times count from the first of its readings; pressures are absolute. */
export interface PressureEvidence {
  /** Decimated to some 400 readings. */
  trace: PressureRecording;
  /** Pressure of the air, from which gauges count [Pa]. */
  atmospherePa: number;
  /** Highest pressure, noise of one reading left aside [Pa]; null where it is not known. */
  highestPa: number | null;
  /** Every stretch in which the system stood shut in. */
  holds: PressureHoldSpan[];
  /** The one that is judged; null where none is. */
  judged: JudgedHoldSpan | null;
  /** The pipe over what is judged [K]; null where its temperature was not read from end to end. */
  line: { heldK: number; endK: number; coldestK: number; warmestK: number } | null;
  /** What is judged, temperature taken out; null where that cannot be. */
  corrected: CorrectedHold | null;
  /** Share of the pipe's changes that the gas went along with, by the curve of what a tight system would have shown. */
  followingRatio: number | null;
  /** Drop that temperature does not explain; null where it cannot be told. */
  drop: DropRange | null;
  limits: PressureLimit[];
  /** Drop that was allowed [Pa]; null where none was held against it. */
  allowedDropPa: number | null;
}

export interface JobFinding {
  checkId: string;
  question: string;
  outcome: Outcome;
  /** What was found, in a sentence. */
  text: string;
  /** Where the limit comes from, in a sentence; empty where there is none. */
  basis: string;
  /** What a trainer would say. */
  teach: string;
  /** What this could not have seen, as words that follow that; empty where nothing was judged. */
  unseen: string;
}
