import { medianOfThree } from '../../numerics/median-of-three.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import type { LastPull } from './last-pull.ts';

/** Rungs to a halving of the pressure. */
export const rungsPerOctave = 8;
/** The ladder's ends [Pa]: below the first the gas flows as the conductances have it, below the last no water stands. */
const topPa = 30_000;
const bottomPa = 10;

/** The pressures of the ladder, falling [Pa]. */
export const rungsPa: Float64Array = Float64Array.from(
  { length: Math.floor(rungsPerOctave * Math.log2(topPa / bottomPa)) + 1 },
  (_, rung) => topPa * 2 ** (-rung / rungsPerOctave),
);
const rungLogs = rungsPa.map(Math.log);

/** When a pull first came down to each of a ladder of pressures. */
export interface PullDownProfile {
  /** The rungs that the readings show, `from` the first to `to` the last, included; none where `to` is below `from`. */
  readonly from: number;
  readonly to: number;
  /** When the first reading within the gauge's range was taken, above rung `from` [s], and which it is. */
  readonly seenS: number;
  readonly seenIndex: number;
  /** When the pressure was first at or below each rung, interpolated between two readings [s]. */
  readonly reachedS: Float64Array;
  /** The first reading at or after that. */
  readonly index: Int32Array;
}

/**
 * When the last pull first came down to each rung, spikes left out by a running median of three.
 *
 * Times over a ladder of pressures answer what a curve over time makes hard: how fast the pump was between two
 * pressures, and where the fall stood still. Rungs above the first reading within the gauge's range are not shown.
 */
export function pullDownProfile({ elapsedS, vacuumPa }: VacuumSeries, pull: LastPull): PullDownProfile {
  const { fromIndex, toIndex } = pull;
  const reachedS = new Float64Array(rungsPa.length);
  const index = new Int32Array(rungsPa.length);
  let first = fromIndex;
  while (first <= toIndex && !(middle(vacuumPa, first, fromIndex, toIndex) < Number.POSITIVE_INFINITY)) first += 1;
  const seen = { seenS: elapsedS[Math.min(first, toIndex)], seenIndex: first };
  if (first > toIndex) return { from: 0, to: -1, ...seen, reachedS, index };
  let before = middle(vacuumPa, first, fromIndex, toIndex);
  let next = 0;
  while (next < rungsPa.length && rungsPa[next] >= before) next += 1;
  const from = next;
  for (let i = first + 1; i <= toIndex && next < rungsPa.length; i += 1) {
    const rungPa = rungsPa[next];
    // A median is at or below only where the reading and a neighbour, or both neighbours, are.
    const isHere = vacuumPa[i] <= rungPa;
    const isAfter = vacuumPa[i < toIndex ? i + 1 : i] <= rungPa;
    if (isHere ? !isAfter && vacuumPa[i - 1] > rungPa : !(isAfter && vacuumPa[i - 1] <= rungPa)) continue;
    before = middle(vacuumPa, i - 1, fromIndex, toIndex);
    const after = middle(vacuumPa, i, fromIndex, toIndex);
    const tookS = elapsedS[i] - elapsedS[i - 1];
    const isAfterRange = !(before < Number.POSITIVE_INFINITY);
    // Over a single rung a straight line is as good, and costs no logarithm.
    const isSteep = !isAfterRange && next + 1 < rungsPa.length && rungsPa[next + 1] >= after;
    const beforeLog = isSteep ? Math.log(before) : 0;
    const secondsPerLog = isSteep ? tookS / (beforeLog - Math.log(Math.max(after, bottomPa / 10))) : 0;
    while (next < rungsPa.length && rungsPa[next] >= after) {
      const sinceS = isSteep
        ? secondsPerLog * (beforeLog - rungLogs[next])
        : isAfterRange
          ? tookS
          : (tookS * (before - rungsPa[next])) / (before - after);
      reachedS[next] = elapsedS[i - 1] + Math.max(0, sinceS);
      index[next] = i;
      next += 1;
    }
  }
  return { from, to: next - 1, ...seen, reachedS, index };
}

/** The median of a reading and its neighbours within a stretch. */
function middle(vacuumPa: Float64Array, i: number, fromIndex: number, toIndex: number): number {
  const a = vacuumPa[i > fromIndex ? i - 1 : i];
  const b = vacuumPa[i];
  const c = vacuumPa[i < toIndex ? i + 1 : i];
  return medianOfThree(a, b, c);
}
