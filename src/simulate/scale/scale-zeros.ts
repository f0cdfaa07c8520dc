import type { Random } from '../../numerics/random.ts';
import { placeApart, type Span } from './place-apart.ts';

export interface DrawScaleZerosOptions {
  readonly random: Random;
  readonly zeroed: 'before' | 'mid' | undefined;
  readonly flowFromS: number;
  readonly flowToS: number;
  /** When a second cylinder has come to rest; undefined where there is none. */
  readonly restS: number | undefined;
  readonly swapSpan: readonly Span[];
}

/** Share of scales that stand at 0 with the full cylinder on from the first reading on: common practice, no source. */
const FROM_ZERO_SHARE = 0.1;

/** Draws when the technician sets the display to 0 [s], in order; before the first reading is below 0. */
export function drawScaleZeros(options: DrawScaleZerosOptions): number[] {
  const { random, zeroed, flowFromS, flowToS, restS, swapSpan } = options;
  const zerosS: number[] = [];
  if (random.chance(FROM_ZERO_SHARE) && zeroed !== 'before') zerosS.push(-1);
  if (zeroed === 'before') zerosS.push(flowFromS * random.uniform(0.25, 0.85));
  // Who works from zero does so with the next cylinder too.
  const again = zerosS.length > 0 && random.chance(0.8);
  const afterRestS = random.uniform(1, 4);
  if (again && restS !== undefined) zerosS.push(restS + afterRestS);
  const flowS = flowToS - flowFromS;
  if (zeroed === 'mid') {
    zerosS.push(placeApart(random, 0, [flowFromS + 0.15 * flowS, flowToS - 0.1 * flowS], swapSpan));
  }
  return zerosS.sort((a, b) => a - b);
}
