import { median } from '../../numerics/median.ts';
import type { VacuumPhase } from '../../traces/vacuum-phases.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';

/** The isolation that judges a job, and the pressures at its ends. */
export interface FoundIsolation {
  readonly phase: VacuumPhase;
  /** Last reading that is in range: above the range of the gauge nothing is measured. */
  readonly lastIndex: number;
  readonly isolationPa: number;
  readonly endPa: number;
  /** How long the pump may have been on before [s]; undefined where the log begins isolated. */
  readonly pumpedS: number | undefined;
}

// Common practice, no source.
/** Left out of a rise where the log begins with it [s], while pressures within the system even out. */
const settlingS = 10;
/** The level at an end of the isolation is the median of so many readings at most … */
const endReadings = 5;
/** … within so many seconds: of a coarse log the last reading alone. */
const endS = 20;
/** The pump may have been on for so many times what a log shows that begins in the hold. */
const unseenTimes = 3;

/** The isolation of the last pull; undefined where there is none, or where it was pumped on again. */
export function foundIsolation(
  { elapsedS, vacuumPa }: VacuumSeries,
  phases: readonly VacuumPhase[],
): FoundIsolation | undefined {
  const phase = lastIsolation(phases);
  if (phase === undefined) return undefined;
  const { fromIndex, toIndex, startS } = phase;
  let lastIndex = fromIndex;
  while (lastIndex < toIndex && vacuumPa[lastIndex + 1] !== Number.POSITIVE_INFINITY) lastIndex += 1;
  let settled = fromIndex;
  while (settled < lastIndex && elapsedS[settled] < startS + settlingS) settled += 1;
  // Where the log begins with the valve closed there is no pumped level before it.
  const before =
    fromIndex === 0
      ? vacuumPa.subarray(settled, Math.min(lastIndex + 1, settled + endReadings))
      : vacuumPa.subarray(Math.max(0, fromIndex - endReadings + 1), fromIndex + 1);
  // Of a fall that goes on to the valve-off only the last readings tell the level there.
  const isolationPa = fromIndex === 0 ? median(before) : Math.min(median(before), median(before.subarray(-3)));
  let ending = lastIndex;
  while (ending > settled && lastIndex - ending < endReadings - 1 && elapsedS[ending - 1] > elapsedS[lastIndex] - endS)
    ending -= 1;
  const endPa = median(vacuumPa.subarray(ending, lastIndex + 1));
  return { phase, lastIndex, isolationPa, endPa, pumpedS: pumpedBefore(phase, phases) };
}

function lastIsolation(phases: readonly VacuumPhase[]): VacuumPhase | undefined {
  const at = phases.findLastIndex(({ phase }) => phase === 'isolation');
  const pumpedSince = phases.slice(at + 1).some(({ phase }) => phase === 'pull-down' || phase === 'hold');
  return at < 0 || pumpedSince ? undefined : phases[at];
}

/** Of a log that begins in mid-pull, so many times what it shows. */
function pumpedBefore({ startS }: VacuumPhase, phases: readonly VacuumPhase[]): number | undefined {
  const first = phases.find(({ phase }) => phase === 'pull-down' || phase === 'hold');
  if (first === undefined) return undefined;
  const shownS = startS - first.startS;
  return first.phase === 'hold' && first.fromIndex === 0 ? unseenTimes * shownS : shownS;
}
