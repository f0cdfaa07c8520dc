import type { Random } from '../numerics/random.ts';
import type { Evacuation } from './evacuation.ts';
import type { Phase, Recorder } from './recorder.ts';
import { drawScaleCourse, type ScaleCourse } from './scale/scale-course.ts';
import { undisturbed } from './scale/scale-upsets.ts';

/** What leaves the cylinder. */
export interface WeighIn {
  /** Mass that leaves the cylinder [kg], hose residual included; 0 where only the unit's own charge is let in. */
  readonly massKg: number;
  /** Cylinder with its content, before [kg]. */
  readonly cylinderKg: number;
  readonly scaleStepKg: number;
  /** How that goes on the scale; absent: drawn, with nothing that upsets it. */
  readonly course?: Pick<ScaleCourse, 'flowFromS' | 'flowToS' | 'durationS' | 'shownKg'> | undefined;
  /** False where the scale is read but not logged. */
  readonly scaleLogged?: boolean;
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
  const course =
    charge.massKg > 0 ? (charge.course ?? drawScaleCourse({ ...charge, random, upsets: undisturbed })) : undefined;
  if (course !== undefined) {
    const beganS = recorder.nowS;
    if (charge.scaleLogged !== false) recorder.scaleKg = (elapsedS) => course.shownKg(elapsedS - beganS);
    recorder.run(evacuation, waiting, course.flowFromS);
  }
  onBreak();
  const startS = recorder.nowS;
  const systemPa = random.uniform(4e5, 9e5);
  const flowS = course === undefined ? random.uniform(10, 30) : course.flowToS - course.flowFromS;
  const letIn = () => evacuation.fill(Math.min(1, (recorder.nowS - startS + 1) / 6) * systemPa);
  const breakS = Math.min(flowS, random.uniform(8, 20));
  recorder.run(evacuation, 'break', breakS, undefined, letIn);
  if (course !== undefined) {
    recorder.run(evacuation, 'weigh-in', flowS - breakS, undefined, letIn);
    recorder.run(evacuation, 'weigh-in', course.durationS - course.flowToS);
  }
  recorder.scaleKg = () => Number.NaN;
}
