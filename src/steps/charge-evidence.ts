import { countsFromSteps } from '../facts/charge/scale-facts.ts';
import type { DrawnFlow, DrawnMass, ScaleMove } from '../charts/scale-recording.ts';
import type { CountedMass, ScaleEvidence } from '../pages/job-evidence-data.ts';
import type { Facts } from '../records/tables/facts.ts';
import { decimate } from '../traces/decimate.ts';
import { type ScaleCourse, scaleCourse } from '../traces/scale-course.ts';
import type { ScaleEvent } from '../traces/scale-events.ts';
import type { ScaleSeries } from '../traces/scale-series.ts';

/** Readings of a trace that a page draws at most. */
const most = 300;

/**
 * The weigh-in of a job by its scale, for its chart. Times count from its first reading, masses from the stand before.
 *
 * @param facts of the job; empty where it was not measured yet
 * @param stepKg step of the scale on record [kg]
 */
export function chargeEvidence(series: ScaleSeries, facts: Partial<Facts>, stepKg?: number): ScaleEvidence {
  const fromS = series.elapsedS[0] ?? 0;
  const course = scaleCourse(series, stepKg);
  const flow = flowOf(course, facts, fromS);
  const beforeKg = flow === null ? series.scaleKg[0] : (course.flow?.before.kg ?? series.scaleKg[0]);
  const isWorthAWord = ({ asideKg }: ScaleEvent) => asideKg > countsFromSteps * course.grain.stepKg;
  const moves = [
    ...course.events.filter(isWorthAWord).map((event) => moveOf(event, series, false)),
    ...course.doubtful.filter(isWorthAWord).map((event) => moveOf(event, series, true)),
  ];
  return {
    read: drawn(series, beforeKg),
    corrected: drawn(course.corrected, beforeKg, fromS),
    moves: moves.toSorted((a, b) => a.startS - b.startS),
    flow,
    beforeKg,
    counted: flow === null ? null : countedMass(facts, flow.kg, countsFromSteps * course.grain.stepKg),
  };
}

/** What flowed, where the facts have it too: they tell a figure that cannot be one from one that can. */
function flowOf({ flow }: ScaleCourse, facts: Partial<Facts>, fromS: number): DrawnFlow | null {
  const { scale_drop_low_kg: lowKg, scale_drop_high_kg: highKg } = facts;
  if (flow === undefined || lowKg === undefined || highKg === undefined) return null;
  const span = (stand: { readonly fromS: number; readonly toS: number }) => ({
    startS: stand.fromS - fromS,
    endS: stand.toS - fromS,
  });
  const { massKg: kg, before, after } = flow;
  return { ...span(flow), kg, lowKg, highKg, before: span(before), after: span(after) };
}

function moveOf({ fromIndex, toIndex, shiftKg, asideKg }: ScaleEvent, series: ScaleSeries, isFlow: boolean): ScaleMove {
  const { elapsedS } = series;
  return {
    startS: elapsedS[fromIndex] - elapsedS[0],
    endS: elapsedS[toIndex] - elapsedS[0],
    shiftKg,
    asideKg,
    isFlow,
  };
}

function drawn({ elapsedS, scaleKg }: ScaleSeries, beforeKg: number, fromS = elapsedS[0]): DrawnMass {
  const kept = decimate(scaleKg, most);
  return {
    elapsedS: kept.map((at) => elapsedS[at] - fromS),
    // To the milligram: no scale shows more.
    drawnKg: kept.map((at) => Math.round(1e6 * (beforeKg - scaleKg[at])) / 1e6),
  };
}

/** What the charge was judged by, where that is not what the scale's series says. */
function countedMass(
  { drawn_kg: kg, charged_from: from }: Partial<Facts>,
  flowKg: number,
  nearKg: number,
): CountedMass | null {
  return kg === undefined || Math.abs(kg - flowKg) <= nearKg ? null : { kg, isScale: from === 'scale' };
}
