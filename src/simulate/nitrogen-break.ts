import type { Random } from '../numerics/random.ts';
import type { Evacuation } from './evacuation.ts';
import type { Recorder } from './recorder.ts';

export interface NitrogenBreakOptions {
  readonly random: Random;
  readonly evacuation: Evacuation;
  readonly recorder: Recorder;
}

/** Breaks the vacuum with nitrogen, waits, and lets it down to the atmosphere. */
export function nitrogenBreak({ random, evacuation, recorder }: NitrogenBreakOptions): void {
  const toPa = evacuation.atmospherePa + random.uniform(5_000, 40_000);
  const fillS = random.uniform(4, 12);
  const startS = recorder.nowS;
  recorder.run(evacuation, 'break', fillS + random.uniform(60, 200), undefined, () =>
    evacuation.fill(toPa * Math.min(1, (recorder.nowS - startS + 0.5) / fillS)),
  );
  evacuation.vent();
  recorder.run(evacuation, 'break', random.uniform(5, 20));
}
