import type { Random } from '../numerics/random.ts';
import type { Evacuation } from './evacuation.ts';
import type { Phase, Recorder } from './recorder.ts';

/** What leaves the cylinder. */
export interface WeighIn {
  /** Mass that leaves the cylinder [kg], hose residual included; 0 where only the unit's own charge is let in. */
  readonly massKg: number;
  /** Cylinder with its content, before [kg]. */
  readonly cylinderKg: number;
  readonly scaleStepKg: number;
}

export interface WeighInOptions {
  readonly random: Random;
  readonly evacuation: Evacuation;
  readonly recorder: Recorder;
}

/**
 * Lets refrigerant in, off the scale where some is weighed: plateau, break, flow, plateau.
 *
 * @param waiting phase that goes on while the scale stands still before
 * @param onBreak called at the moment the refrigerant is let in
 */
export function weighIn(charge: WeighIn, options: WeighInOptions, waiting: Phase, onBreak: () => void): void {
  const { random, evacuation, recorder } = options;
  const shown = (kg: number) => {
    recorder.scaleKg = Math.round((kg + random.normal(0, 0.0008)) / charge.scaleStepKg) * charge.scaleStepKg;
  };
  const weighed = charge.massKg > 0;
  if (weighed) recorder.run(evacuation, waiting, random.uniform(20, 60), undefined, () => shown(charge.cylinderKg));
  onBreak();
  const startS = recorder.nowS;
  const systemPa = random.uniform(4e5, 9e5);
  const flowKgPerS = random.uniform(0.006, 0.02);
  const flowS = weighed ? charge.massKg / flowKgPerS : random.uniform(10, 30);
  const letIn = () => {
    const sinceS = recorder.nowS - startS + 1;
    evacuation.fill(Math.min(1, sinceS / 6) * systemPa);
    if (weighed) shown(charge.cylinderKg - Math.min(charge.massKg, flowKgPerS * sinceS));
  };
  const breakS = Math.min(flowS, random.uniform(8, 20));
  recorder.run(evacuation, 'break', breakS, undefined, letIn);
  if (weighed) {
    recorder.run(evacuation, 'weigh-in', flowS - breakS, undefined, letIn);
    recorder.run(evacuation, 'weigh-in', random.uniform(30, 90), undefined, () =>
      shown(charge.cylinderKg - charge.massKg),
    );
  }
  recorder.scaleKg = Number.NaN;
}
