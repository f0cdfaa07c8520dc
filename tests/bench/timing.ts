import { median } from '../../src/numerics/median.ts';

export interface Timing {
  readonly seconds: number;
  /** Of all threads of the process. */
  readonly cpuSeconds: number;
}

export async function timed(work: () => Promise<unknown>): Promise<Timing> {
  const cpu = process.cpuUsage();
  const start = performance.now();
  await work();
  const used = process.cpuUsage(cpu);
  return { seconds: (performance.now() - start) / 1000, cpuSeconds: (used.user + used.system) / 1e6 };
}

export function medianSeconds(timings: readonly Timing[]): number {
  return median(timings.map((timing) => timing.seconds));
}

/** One line: the medians of the rounds, and what they come to. */
export function printTimings(what: string, timings: readonly Timing[], says: string): void {
  const cpu = median(timings.map((timing) => timing.cpuSeconds));
  console.log(
    `${what.padEnd(40)} ${medianSeconds(timings).toFixed(2).padStart(7)} s  ${cpu.toFixed(2).padStart(7)} s CPU  ${says}`,
  );
}
