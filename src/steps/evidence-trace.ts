import type { VacuumRecording } from '../charts/vacuum-recording.ts';
import { decimate } from '../traces/decimate.ts';
import type { VacuumPhase } from '../traces/vacuum-phases.ts';
import type { VacuumSeries } from '../traces/vacuum-series.ts';

/** Readings of a trace that a page draws at most … */
const most = 600;
/** … and of them, those that are kept for the judged isolation, which has a chart of its own. */
const ofIsolation = 200;

/** A series thinned for drawing; the judged isolation, however short, keeps enough readings for a chart of its own. */
export function evidenceTrace(
  { elapsedS, vacuumPa }: VacuumSeries,
  isolation: VacuumPhase | undefined,
): { elapsedS: number[]; vacuumPa: (number | null)[]; over: boolean[] } & VacuumRecording {
  const [from, to] = isolation === undefined ? [0, 0] : [isolation.fromIndex, isolation.toIndex + 1];
  const inside = to - from;
  const outside = vacuumPa.length - inside;
  // What one of the two does not need the other may have.
  const shareInside = Math.min(inside, Math.max(ofIsolation, most - outside));
  const shareOutside = most - shareInside;
  const beforeShare = outside === 0 ? 0 : Math.max(2, Math.round((shareOutside * from) / outside));
  const afterShare = Math.max(2, shareOutside - beforeShare);
  const kept = [
    ...thinned(vacuumPa, 0, from, beforeShare),
    ...thinned(vacuumPa, from, to, Math.max(2, shareInside)),
    ...thinned(vacuumPa, to, vacuumPa.length, afterShare),
  ];
  return {
    elapsedS: kept.map((index) => elapsedS[index]),
    vacuumPa: kept.map((index) => (vacuumPa[index] === Number.POSITIVE_INFINITY ? null : vacuumPa[index])),
    over: kept.map((index) => vacuumPa[index] === Number.POSITIVE_INFINITY),
  };
}

function thinned(vacuumPa: Float64Array, from: number, to: number, share: number): number[] {
  return from >= to ? [] : decimate(vacuumPa.subarray(from, to), share).map((index) => from + index);
}
