import { smallestStep } from './gauge-grain.ts';
import { turningPoints } from './turning-points.ts';
import type { VacuumSeries } from './vacuum-series.ts';

// What follows is common practice, no source; the simulated fleets and the real logs of the tests set the values.
/** The pump was opened again where the pressure falls by at least this ratio after a rise … */
const leastFall = Math.log(1.12) * 2;
/** … and the rise was more than so many steps of the gauge. */
const turnSteps = 2.5;
/** A gauge at rest changes by less than this ratio. */
const restTurn = Math.log(1.05);
/** A break raises the pressure at least so much … */
const breakRise = Math.log(10);
/** … within so many seconds … */
const breakWithinS = 60;
/** … to at least this pressure [Pa]. */
const breakToPa = 3_000;

/** More than sums of levels are rounded by. */
const rounding = 1e-9;

export interface VacuumCut {
  from: number;
  /** Last index before the break, or of the log. */
  to: number;
  /** Where the break ends; absent where the log does. */
  ends?: number;
  /** Whether the pump was opened to a system that had stood isolated: then it is pumped, however little it falls. */
  reopened?: boolean;
}

/**
 * Cuts a log at its breaks and where the pump was opened again after a rise.
 *
 * @param levels the logarithm of the pressure, without spikes
 * @param threshold a change by less is no turn of the curve [unit of levels]
 */
export function vacuumCuts({ elapsedS, vacuumPa }: VacuumSeries, levels: Float64Array, threshold: number): VacuumCut[] {
  const turnPa = turnSteps * smallestStep(vacuumPa);
  const cuts: VacuumCut[] = [];
  let from = 0;
  let reopened = false;
  const legs = turningPoints(levels, threshold);
  for (const [index, leg] of legs.entries()) {
    if (leg.direction !== 'rising') continue;
    const onset = breakOnset(elapsedS, levels, leg.from, leg.to, threshold);
    const next = legs[index + 1];
    const pumpedAgain =
      next !== undefined &&
      levels[next.from] - levels[next.to] > leastFall &&
      Math.exp(levels[leg.to]) - Math.exp(Math.max(levels[leg.from], levels[next.to])) > turnPa;
    if (onset !== undefined) {
      const ends = topLeft(levels, leg.to, next?.to ?? leg.to);
      cuts.push({ from, to: onset, ends, reopened });
      from = ends;
      reopened = false;
    } else if (pumpedAgain && leg.from > 0 && levels[leg.to] - levels[leg.from] > threshold) {
      cuts.push({ from, to: leg.to, reopened });
      from = leg.to;
      reopened = true;
    }
  }
  if (from < levels.length - 1) cuts.push({ from, to: levels.length - 1, reopened });
  return cuts;
}

/**
 * The last reading before a curve leaves its top: from there on it is never again about as high.
 *
 * @param from a reading at the top; @param to where the fall ends
 */
export function topLeft(levels: Float64Array, from: number, to: number): number {
  let left = from;
  for (let i = from; i <= to; i += 1) if (levels[i] > levels[from] - restTurn) left = i;
  return left;
}

/**
 * The last reading before the pressure is brought up on purpose, within a rising leg.
 *
 * @param wiggle no reading of the leg is so much above its end, and none below its beginning
 */
function breakOnset(
  elapsedS: Float64Array,
  levels: Float64Array,
  from: number,
  to: number,
  wiggle: number,
): number | undefined {
  const enough = Math.log(breakToPa);
  const most = levels[to] + wiggle + rounding;
  if (most - levels[from] < breakRise || most < enough) return undefined;
  let ahead = from;
  for (let i = from; i < to; i += 1) {
    while (ahead < to && elapsedS[ahead + 1] <= elapsedS[i] + breakWithinS) ahead += 1;
    const within = Math.max(ahead, i + 1);
    if (levels[within] - levels[i] < breakRise || levels[within] < enough) continue;
    // The steep part begins where a single step first goes up by a tenth of the whole.
    const rise = levels[within] - levels[i];
    for (let k = i; k < within; k += 1) if (levels[k + 1] - levels[k] > rise / 10) return k;
    return i;
  }
  return undefined;
}
