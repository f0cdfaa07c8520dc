import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { CurveRange } from '../../src/store/curve-prints.ts';
import { JudgedPart, nextCurve, takePart } from '../../src/store/judged-part.ts';
import type { Store } from '../../src/store/store.ts';
import { type CurveCandidate, curveCandidates } from '../../src/steps/curve-candidates.ts';
import { pressureCurve } from '../../src/traces/curve/pressure-curve.ts';
import { sameCurve } from '../../src/traces/curve/same-curve.ts';
import { type Timing, timed } from '../bench/timing.ts';
import { type CopiedFleet, curvesOf } from './copied-fleet.ts';
import { printedFleet } from './printed-fleet.ts';

/** Two jobs that were found to share a curve. */
export interface FoundPair {
  readonly one: number;
  readonly two: number;
  readonly column: string;
  readonly sigma: number;
}

/** A search for copies of the latest jobs among all so far. */
export interface SearchStep extends Timing {
  readonly jobs: number;
  readonly latest: number;
}

export interface CopiesRun {
  readonly pairs: readonly FoundPair[];
  /** Pairs whose prints looked alike, and so were held beside each other reading by reading. */
  readonly candidates: number;
  /** Job and column of every curve that has a face of its own, and how many curves there were. */
  readonly printed: ReadonlySet<string>;
  readonly curves: number;
  readonly readings: number;
  readonly printSeconds: number;
  /** Jobs taken in so far, and what the search for copies of the latest of them took. */
  readonly steps: readonly SearchStep[];
}

/**
 * Takes the jobs of a fleet in, some at a time, and looks for copies each time as judging does: by the same prints in the same
 * catalogue. Only the readings of candidates are drawn again instead of being read from a store: a million logs would fill it.
 *
 * @param stepJobs jobs that come in at once
 */
export async function copiesRun(
  store: Store,
  fleet: CopiedFleet,
  all: number,
  stepJobs: number,
  onProgress: (says: string) => void = () => undefined,
): Promise<CopiesRun> {
  const named: { number: number; column: string }[] = [];
  const printed = new Set<string>();
  const pairs: FoundPair[] = [];
  const steps: SearchStep[] = [];
  let [curves, readings, printMs, candidates] = [0, 0, 0, 0];
  const part = await JudgedPart.begin(store.connection);
  const folder = join(store.folder, 'part');
  mkdirSync(folder);
  for (let from = 1; from <= all; from += stepJobs) {
    const end = Math.min(all + 1, from + stepJobs);
    const first = await nextCurve(store);
    for await (const batch of printedFleet(fleet, from, end)) {
      for (const job of batch) {
        curves += job.curves;
        readings += job.readings;
        printMs += job.printMs;
        part.addPrints(String(job.number), job.prints);
        for (const print of job.prints) {
          named.push({ number: job.number, column: print.column });
          if (print.print.hasFace) printed.add(`${job.number} ${print.column}`);
        }
        if (job.number % 10_000 === 0) onProgress(`${job.number} of ${all} jobs drawn`);
      }
    }
    await part.write(folder);
    await takePart(store, folder);
    const latest: CurveRange = { from: first, end: await nextCurve(store) };
    const likely: CurveCandidate[] = [];
    const { seconds, cpuSeconds } = await timed(async () => {
      for await (const block of curveCandidates(store, latest)) likely.push(...block);
    });
    candidates += likely.length;
    for (const { one, two, shiftRows } of likely) {
      const pair = confirmed(fleet, named[one - 1], named[two - 1], shiftRows);
      if (pair !== undefined) pairs.push(pair);
    }
    steps.push({ jobs: end - 1, latest: end - from, seconds, cpuSeconds });
    onProgress(
      `${end - 1} jobs in, ${pairs.length} pairs found; the latest ${end - from} took ${seconds.toFixed(1)} s`,
    );
  }
  return { pairs, candidates, printed, curves, readings, printSeconds: printMs / 1000, steps };
}

function confirmed(
  fleet: CopiedFleet,
  one: { number: number; column: string },
  two: { number: number; column: string },
  shiftRows: number,
): FoundPair | undefined {
  if (one.number === two.number) return undefined;
  const curveOf = ({ number, column }: { number: number; column: string }) => {
    const curve = curvesOf(fleet, number).find((each) => each.column === column);
    if (curve === undefined) throw new TypeError(`job ${number} has no ${column}`);
    return pressureCurve(curve.elapsedS, curve.pa);
  };
  const same = sameCurve(curveOf(one), curveOf(two), shiftRows);
  return same && { one: one.number, two: two.number, column: one.column, sigma: same.sigma };
}
