import { parentPort, workerData } from 'node:worker_threads';
import type { JobCurvePrint } from '../../src/store/curve-prints.ts';
import { curvePrint } from '../../src/traces/curve/curve-print.ts';
import { type CopiedFleet, curvesOf } from './copied-fleet.ts';

/** The prints of one job of a fleet. */
export interface PrintedJob {
  readonly number: number;
  readonly curves: number;
  readonly readings: number;
  readonly prints: readonly JobCurvePrint[];
  /** What the prints took [ms]. */
  readonly printMs: number;
}

// A thread of `copies`: numbers of jobs in, their prints out.
const fleet = workerData as CopiedFleet;

function printed(number: number): PrintedJob {
  const curves = curvesOf(fleet, number);
  const before = performance.now();
  const prints = curves.flatMap(({ column, gauge, elapsedS, pa }) => {
    const print = curvePrint(elapsedS, pa);
    return print === undefined ? [] : { column, gauge, print };
  });
  const readings = curves.reduce((sum, { pa }) => sum + pa.length, 0);
  return { number, curves: curves.length, readings, prints, printMs: performance.now() - before };
}

parentPort?.on('message', ({ from, end }: { from: number; end: number }) => {
  parentPort?.postMessage(Array.from({ length: end - from }, (_, index) => printed(from + index)));
});
