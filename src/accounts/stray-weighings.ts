import { beyondScale, type CylinderWalk } from './cylinder-walk.ts';

/** Two weights are the same where they differ by less [kg]. Common practice, no source. */
const nearKg = 0.12;
/** By so much better a cylinder has to go on without a weighing than with it [kg]. Common practice, no source. */
const clearlyKg = 0.05;

/**
 * Weighings whose weights fit neither what their cylinder weighed before nor what it weighs afterwards, while it goes on as if they had
 * not been: of another cylinder, most likely.
 *
 * @returns their ids
 */
export function strayWeighings({ gaps, weighings }: CylinderWalk): string[] {
  const next = new Map(weighings.map(({ weighing }, at) => [weighing, weighings[at + 1]?.weighing]));
  return gaps.flatMap((gap) => {
    const weighing = gap.after;
    const following = weighing === null ? undefined : next.get(weighing);
    if (!gap.isBeyond || weighing === null || following === undefined) return [];
    const withoutKg = Math.abs(following.startKg - gap.expectedKg);
    const withKg = Math.abs(following.startKg - (gap.expectedKg - (weighing.startKg - weighing.endKg)));
    const isStray = withoutKg <= Math.max(nearKg, beyondScale * gap.sdKg) && withoutKg + clearlyKg < withKg;
    return isStray ? [weighing.weighingId] : [];
  });
}
