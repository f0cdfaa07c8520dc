import { type ScaleEvent, scaleEvents } from './scale-events.ts';
import { type ScaleGrain, scaleGrain } from './scale-grain.ts';
import type { ScaleSeries } from './scale-series.ts';

/** A stretch on which the load did not change. */
export interface ScaleStand {
  /** [s] */
  readonly fromS: number;
  readonly toS: number;
  /** The load, by the mean of the readings near the flow [kg]. */
  readonly kg: number;
  /** How many readings that rests on. */
  readonly readings: number;
}

/** What flowed off a scale. */
export interface ScaleFlow {
  /** [s] */
  readonly fromS: number;
  readonly toS: number;
  /** What left it, less what came back [kg]. */
  readonly massKg: number;
  /** How far it rose above the level before on the way [kg]: refrigerant that came back first. */
  readonly roseKg: number;
  /** Where the scale stood still before and after. */
  readonly before: ScaleStand;
  readonly after: ScaleStand;
}

/** What a scale tells of a job. */
export interface ScaleCourse {
  readonly grain: ScaleGrain;
  /** What moved the scale and was no refrigerant. */
  readonly events: readonly ScaleEvent[];
  /** Steps that were taken for flow, and may as well have been a hose or a hand. */
  readonly doubtful: readonly ScaleEvent[];
  /** The readings without what the events added to them. */
  readonly corrected: ScaleSeries;
  /** Undefined where nothing flowed, and where the scale never stood still before or after. */
  readonly flow: ScaleFlow | undefined;
  /** Whether it moved to the very beginning or end of the log. */
  readonly isCut: boolean;
}

// Common practice, no source; set on simulated weigh-ins.
/** A level is the mean over so long [s], after a flow begun so much later, when its last trickle is through [s]. */
const levelS = 40;
const trickleS = 6;
/** A level follows a standing load as fast as this drifts at most [kg/s]. */
const mostDriftKgPerS = 2e-5;
/** A stand has so many readings, over so long [s]. */
const fewestReadings = 3;
const shortestS = 5;
/** What leaves a level does so for so many readings. */
const stayingReadings = 3;
/** A step down that is faster is a hose or a hand [kg/s]. */
const fastestFlowKgPerS = 0.065;

/**
 * What flowed off the scale, told from bumps, zeroing, hoses and cylinders that were moved: the level before less the level
 * after, on readings from which these are taken out. What flows slowly, in bursts or back is all in it.
 *
 * @param stepKg step on record [kg]; absent: told from the readings
 */
export function scaleCourse(series: ScaleSeries, stepKg?: number): ScaleCourse {
  const grain = scaleGrain(series, stepKg);
  const found = scaleEvents(series, grain);
  const doubtful = found.filter((event) => isFlow(event, series, grain, found));
  const events = found.filter((event) => !doubtful.includes(event));
  return { ...courseOf(series, grain, events), doubtful };
}

function courseOf(series: ScaleSeries, grain: ScaleGrain, events: readonly ScaleEvent[]): ScaleCourse {
  const corrected = withoutEvents(series, events);
  const last = corrected.scaleKg.length - 1;
  const from = leaves(corrected, grain, 0, 1);
  const to = leaves(corrected, grain, last, -1);
  const course = { grain, events, doubtful: [], corrected, flow: undefined, isCut: false };
  if (from === undefined || to === undefined) return course;
  const before = standOf(corrected, from, -1);
  const after = standOf(corrected, to, 1);
  if (before === undefined || after === undefined || to <= from) return { ...course, isCut: true };
  const [fromS, toS] = [corrected.elapsedS[from], corrected.elapsedS[to]];
  let highestKg = before.kg;
  for (let at = from; at <= to; at += 1) highestKg = Math.max(highestKg, corrected.scaleKg[at]);
  const flow = { fromS, toS, massKg: before.kg - after.kg, roseKg: highestKg - before.kg, before, after };
  return { ...course, flow };
}

/** Whether a doubtful step is taken for flow: slow enough, and not undone by another event. */
function isFlow(event: ScaleEvent, { elapsedS }: ScaleSeries, grain: ScaleGrain, all: readonly ScaleEvent[]): boolean {
  if (!event.isDoubtful) return false;
  if (all.some((other) => other !== event && Math.abs(other.shiftKg + event.shiftKg) <= grain.stillKg)) return false;
  return -event.shiftKg <= grain.stillKg + fastestFlowKgPerS * (elapsedS[event.toIndex] - elapsedS[event.fromIndex]);
}

/** The readings less what events left added to them; those in their midst are left out. */
function withoutEvents({ elapsedS, scaleKg }: ScaleSeries, events: readonly ScaleEvent[]): ScaleSeries {
  if (events.length === 0) return { elapsedS, scaleKg };
  const times: number[] = [];
  const masses: number[] = [];
  let addedKg = 0;
  let from = 0;
  const keep = (to: number) => {
    for (let at = from; at <= to; at += 1) {
      times.push(elapsedS[at]);
      masses.push(scaleKg[at] - addedKg);
    }
  };
  for (const { fromIndex, toIndex, shiftKg } of events) {
    keep(fromIndex);
    addedKg += shiftKg;
    from = toIndex;
  }
  keep(scaleKg.length - 1);
  return { elapsedS: Float64Array.from(times), scaleKg: Float64Array.from(masses) };
}

/** The last reading on the level of one end of the series, before it is left for good; undefined where it never is. */
function leaves({ elapsedS, scaleKg }: ScaleSeries, grain: ScaleGrain, end: number, along: 1 | -1): number | undefined {
  const mostKg = Math.max(1.2 * grain.stepKg, 4 * grain.noiseKg);
  const near = Array.from({ length: Math.min(4, scaleKg.length) }, (_, nth) => scaleKg[end + along * nth]);
  let levelKg = near.toSorted((a, b) => a - b)[near.length >> 1];
  let away = 0;
  for (let at = end; at >= 0 && at < scaleKg.length; at += along) {
    const offKg = scaleKg[at] - levelKg;
    if (Math.abs(offKg) <= mostKg) {
      away = 0;
      const sinceS = at === end ? 0 : Math.abs(elapsedS[at] - elapsedS[at - along]);
      levelKg += Math.sign(offKg) * Math.min(Math.abs(offKg), mostDriftKgPerS * sinceS);
      continue;
    }
    away += 1;
    if (away === stayingReadings) return Math.max(0, Math.min(scaleKg.length - 1, at - along * stayingReadings));
  }
  return undefined;
}

/** The level beside a reading, on the side that is away from the flow. */
function standOf({ elapsedS, scaleKg }: ScaleSeries, at: number, away: 1 | -1): ScaleStand | undefined {
  const end = away === 1 ? scaleKg.length - 1 : 0;
  const lastedS = Math.abs(elapsedS[end] - elapsedS[at]);
  if (Math.abs(end - at) + 1 < fewestReadings || lastedS < shortestS) return undefined;
  const skipS = away === 1 ? Math.min(trickleS, lastedS / 4) : 0;
  let sum = 0;
  let readings = 0;
  for (let index = at; index >= 0 && index < scaleKg.length; index += away) {
    const awayS = Math.abs(elapsedS[index] - elapsedS[at]);
    if (awayS < skipS) continue;
    if (awayS > skipS + levelS && readings > 0) break;
    sum += scaleKg[index];
    readings += 1;
  }
  const [fromS, toS] = away === 1 ? [elapsedS[at], elapsedS[end]] : [elapsedS[end], elapsedS[at]];
  return { fromS, toS, kg: sum / readings, readings };
}
