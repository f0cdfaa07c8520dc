import type { VacuumPhase } from '../../traces/vacuum-phases.ts';

/** The last pull of a log and the hold that it ended in, if any. Times in seconds since the log began. */
export interface LastPull {
  /** When the pressure left its top; of a gauge that begins above its range, when it came into it. */
  readonly startS: number;
  /** When it was first at or below the target (spikes left out); undefined where it never was. */
  readonly targetS: number | undefined;
  readonly targetIndex: number | undefined;
  /** Indices into the series, from the start to the end of the pumping, `toIndex` included. */
  readonly fromIndex: number;
  readonly toIndex: number;
}

/**
 * The last pull-down among the phases, with the hold that follows it.
 *
 * @param phases as `findVacuumPhases` gives them for the target
 * @returns undefined where nothing was pulled down, or where the log begins in the hold
 */
export function lastPull(phases: readonly VacuumPhase[]): LastPull | undefined {
  const at = phases.findLastIndex(({ phase }) => phase === 'pull-down');
  if (at < 0) return undefined;
  const { startS, fromIndex, toIndex } = phases[at];
  const next = phases.at(at + 1);
  const hold = next?.phase === 'hold' ? next : undefined;
  return {
    startS,
    targetS: hold?.startS,
    targetIndex: hold?.fromIndex,
    fromIndex,
    toIndex: hold?.toIndex ?? toIndex,
  };
}
