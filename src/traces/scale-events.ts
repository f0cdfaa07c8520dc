import { median } from '../numerics/median.ts';
import type { ScaleGrain } from './scale-grain.ts';
import type { ScaleSeries } from './scale-series.ts';

/** Something that moved the scale and was no refrigerant. */
export interface ScaleEvent {
  /** The last reading before it and the first after it. */
  readonly fromIndex: number;
  readonly toIndex: number;
  /** What it left added to the readings [kg]; 0 where they came back. */
  readonly shiftKg: number;
  /** Standard uncertainty of that, by the flow that went on beneath it [kg]. */
  readonly uncertaintyKg: number;
  /** The most that the readings went aside [kg]. */
  readonly asideKg: number;
  /** Whether it may as well have been a short flow: one step down that a hose would let through. */
  readonly isDoubtful: boolean;
}

// Common practice, no source; set on simulated weigh-ins.
/** No hose lets through so much [kg/s] … */
const mostFlowKgPerS = 0.12;
/** … and none takes back so much. */
const mostReturnKgPerS = 0.02;
/** Who leans on a cylinder stands up again within so long [s]. */
const leaningS = 30;
/** A flow that nobody sees while somebody leans on the cylinder [kg/s]. */
const smallFlowKgPerS = 0.004;
/** A scale swings for so long after a load was set down [s]. */
const ringingS = 5;
/** Lighter loads do not make it swing [kg]. */
const ringingKg = 1;
/** What shows so little after more than that was zeroed. */
const zeroedKg = 0.3;
/** A change so many times as large as those beside it is no flow. */
const timesLarger = 3;
/** The flow beside an event is told from so many changes. */
const nearReadings = 2;

const unmoved = { shiftKg: 0, uncertaintyKg: 0, isDoubtful: false };

/** Every event of a series, in order; they do not overlap. */
export function scaleEvents({ elapsedS, scaleKg }: ScaleSeries, { stillKg }: ScaleGrain): ScaleEvent[] {
  const last = scaleKg.length - 1;
  const changeKg = (at: number) => (at < 0 || at >= last ? 0 : scaleKg[at + 1] - scaleKg[at]);
  const spanS = (at: number) => elapsedS[at + 1] - elapsedS[at];
  const isRise = (at: number) => changeKg(at) > stillKg + mostReturnKgPerS * spanS(at);
  const isFall = (at: number) => -changeKg(at) > stillKg + mostFlowKgPerS * spanS(at);
  const fallKgPerS = (at: number) => (at < 0 || at >= last ? 0 : Math.max(0, -changeKg(at) / spanS(at)));
  const isOutlier = (at: number) =>
    -changeKg(at) > stillKg + timesLarger * spanS(at) * Math.max(fallKgPerS(at - 1), fallKgPerS(at + 1));
  const events: ScaleEvent[] = [];
  let free = 0;
  for (let at = 0; at < last; at += 1) {
    if (at < free) continue;
    if (!isRise(at) && !isFall(at) && !isOutlier(at)) continue;
    const found = bump(at) ?? begunBefore(at) ?? shift(at);
    events.push(found);
    free = found.toIndex;
  }
  return events;

  /** Somebody leaned on the cylinder, or held it up: aside at once and back at once, to where the flow had brought it. */
  function bump(at: number): ScaleEvent | undefined {
    const aside = Math.sign(changeKg(at));
    let asideKg = 0;
    let fastestBackKg = 0;
    // Up and slowly down again is a shift, and the flow.
    const flowKgPerS = aside > 0 ? -timesLarger * rateBefore(at) : 0;
    for (let to = at + 1; to <= last && elapsedS[to] - elapsedS[at] <= leaningS; to += 1) {
      const offKg = aside * (scaleKg[to] - scaleKg[at]);
      if (to > at + 1) fastestBackKg = Math.max(fastestBackKg, -aside * changeKg(to - 1) - flowKgPerS * spanS(to - 1));
      if (offKg > asideKg) asideKg = offKg;
      if (to > at + 1 && fastestBackKg > asideKg / 4 && isBack(at, to))
        return { ...unmoved, fromIndex: at, toIndex: to, asideKg };
    }
    return undefined;
  }

  /** A bump of which the reading before caught the beginning. */
  function begunBefore(at: number): ScaleEvent | undefined {
    const before = changeKg(at - 1);
    const isOne = at > free && Math.sign(before) === Math.sign(changeKg(at)) && Math.abs(before) > stillKg;
    return isOne ? bump(at - 1) : undefined;
  }

  /** Whether such a flow as before or after, or a small one of its own, brought the reading from one index to another. */
  function isBack(from: number, to: number): boolean {
    const netKg = scaleKg[to] - scaleKg[from];
    const besideKgPerS = Math.max(smallFlowKgPerS, -1.5 * rateBefore(from), -1.5 * rateAfter(to));
    const flowKgPerS = Math.min(mostFlowKgPerS, besideKgPerS);
    return netKg <= stillKg && -netKg <= stillKg + flowKgPerS * (elapsedS[to] - elapsedS[from]);
  }

  /** The reading is another from here on: what a further change within the swinging adds is the same event. */
  function shift(at: number): ScaleEvent {
    let to = at + 1;
    const size = Math.abs(changeKg(at));
    for (let next = to; next < last && elapsedS[next] - elapsedS[at + 1] <= ringingS; next += 1)
      if (isRise(next) || isFall(next) || (size > ringingKg && changeKg(next) > stillKg / 2)) to = next + 1;
    const lastedS = elapsedS[to] - elapsedS[at];
    const [before, after] = [rateBefore(at), rateAfter(to)].map((rate) => Math.max(-mostFlowKgPerS, rate));
    // Zeroed before a flow: what the display then shows is the flow since.
    const isZeroed = before === 0 && Math.abs(scaleKg[at]) > ringingKg && Math.abs(scaleKg[to]) < zeroedKg;
    const flowKg = isZeroed ? Math.min(0, scaleKg[to]) : ((before + after) / 2) * lastedS;
    const shiftKg = scaleKg[to] - scaleKg[at] - flowKg;
    let asideKg = 0;
    for (let index = at; index <= to; index += 1) asideKg = Math.max(asideKg, Math.abs(scaleKg[index] - scaleKg[at]));
    const widthKg = (Math.abs(before - after) / 2 + Math.abs(before + after) / 8) * lastedS;
    return {
      fromIndex: at,
      toIndex: to,
      shiftKg,
      uncertaintyKg: widthKg / Math.sqrt(3),
      asideKg,
      isDoubtful: to === at + 1 && shiftKg < 0 && !isFall(at),
    };
  }

  /** The flow just before a reading, and just after one [kg/s]. */
  function rateBefore(at: number): number {
    return medianRate(Math.max(free, at - nearReadings), at);
  }

  function rateAfter(at: number): number {
    return medianRate(at, Math.min(last, at + nearReadings));
  }

  function medianRate(from: number, to: number): number {
    if (to <= from) return 0;
    const rates = Array.from({ length: to - from }, (_, nth) => changeKg(from + nth) / spanS(from + nth));
    return Math.min(0, median(rates));
  }
}
