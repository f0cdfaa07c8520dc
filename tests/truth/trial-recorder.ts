import type { Evacuation } from '../../src/simulate/evacuation.ts';
import { type Phase, Recorder } from '../../src/simulate/recorder.ts';

/** A recorder that also keeps the true pressure at the gauge, reading by reading. */
export class TrialRecorder extends Recorder {
  readonly trueTimesS: number[] = [];
  readonly truePas: number[] = [];

  override run(
    evacuation: Evacuation,
    phase: Phase,
    durationS: number,
    until?: () => boolean,
    before?: () => void,
  ): number {
    const kept = () => {
      this.trueTimesS.push(this.nowS);
      this.truePas.push(this.truePa(evacuation));
      return until?.() ?? false;
    };
    return super.run(evacuation, phase, durationS, kept, before);
  }
}
