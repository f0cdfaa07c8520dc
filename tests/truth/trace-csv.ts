import type { TrialRun } from './run-trial.ts';

/** The trace of a trial as CSV: what the gauge showed and what was true, both at the gauge; empty above the gauge's range. */
export function traceCsv({ readings, trueTimesS, truePas }: TrialRun): string {
  const lines = ['elapsed_s,vacuum_pa,true_pa'];
  let at = 0;
  for (const [index, elapsedS] of readings.elapsedS.entries()) {
    // The log keeps tenths of seconds.
    while (at < trueTimesS.length - 1 && trueTimesS[at] < elapsedS - 0.051) at += 1;
    const shownPa = readings.vacuumPa[index];
    const shown = Number.isFinite(shownPa) ? shownPa.toFixed(4) : '';
    lines.push(`${elapsedS.toFixed(1)},${shown},${truePas[at].toFixed(4)}`);
  }
  return `${lines.join('\n')}\n`;
}
