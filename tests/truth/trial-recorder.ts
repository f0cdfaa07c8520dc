import type { Evacuation } from '../../src/simulate/evacuation.ts';
import { type Phase, Recorder, type RecorderOptions } from '../../src/simulate/recorder.ts';

/** A recorder that also keeps the true pressure at the gauge, reading by reading. */
export class TrialRecorder extends Recorder {
  readonly trueTimesS: number[] = [];
  readonly truePas: number[] = [];
  /** Like `heldS`, but by the gauge's gain: what it would show without noise and lag [s]. */
  shownHeldS = 0;
  readonly #gainRatio: number;

  constructor(options: RecorderOptions) {
    super(options);
    this.#gainRatio = options.gauge.gainRatio;
  }

  override run(
    evacuation: Evacuation,
    phase: Phase,
    durationS: number,
    until?: () => boolean,
    before?: () => void,
  ): number {
    const pumping = phase === 'pull-down' || phase === 'hold';
    const kept = () => {
      const truePa = this.truePa(evacuation);
      if (pumping && truePa * this.#gainRatio <= this.targetPa)
        this.shownHeldS += this.nowS - (this.trueTimesS.at(-1) ?? this.nowS);
      this.trueTimesS.push(this.nowS);
      this.truePas.push(truePa);
      return until?.() ?? false;
    };
    return super.run(evacuation, phase, durationS, kept, before);
  }
}
