import { beyondScale, type CylinderGap, type CylinderWalk } from './cylinder-walk.ts';

/** A weighing that was written for a cylinder and fits another. */
export interface MisplacedWeighing {
  readonly weighingId: string;
  readonly writtenFor: string;
  readonly fits: string;
}

/** Two weights are the same where they differ by less [kg]. Common practice, no source. */
const nearKg = 0.12;

/**
 * Weighings that do not go on from what their cylinder weighed, where another cylinder of the same refrigerant, at the same time, weighed
 * as much as they begin with and afterwards as much as they end with.
 *
 * Four figures have to agree, so that nothing is said where a loss merely looks alike.
 *
 * @param walks of cylinders in which something is beyond what the scale explains
 */
export function misplacedWeighings(walks: readonly CylinderWalk[]): MisplacedWeighing[] {
  const gaps = Map.groupBy(walks.flatMap(wholeGaps), ({ refrigerant }) => refrigerant);
  const found: MisplacedWeighing[] = [];
  const taken = new Set<CylinderGap>();
  for (const walk of walks) {
    for (const [at, gap] of walk.gaps.entries()) {
      const weighing = gap.after;
      if (!gap.isBeyond || weighing === null || !fitsWithout(walk, at)) continue;
      const other = (gaps.get(walk.cylinder.refrigerant) ?? []).find(
        ({ gap: one, fromKg, toKg, tareKg }) =>
          one.cylinderId !== gap.cylinderId &&
          !taken.has(one) &&
          // Its weights, with the empty cylinder's or without.
          [0, tareKg ?? 0].some(
            (offKg) =>
              isNear(fromKg - offKg, weighing.startKg, one.sdKg) && isNear(toKg - offKg, weighing.endKg, one.sdKg),
          ) &&
          (one.after === null ? one.day >= weighing.day : one.after.atMs >= weighing.atMs) &&
          (one.before === null || one.before.atMs <= weighing.atMs),
      );
      if (other === undefined) continue;
      taken.add(other.gap);
      found.push({ weighingId: weighing.weighingId, writtenFor: gap.cylinderId, fits: other.gap.cylinderId });
    }
  }
  return found;
}

/** Gaps that the scale does not explain, with what the cylinder weighed before and after. */
function wholeGaps({ cylinder: { refrigerant, tareKg }, gaps }: CylinderWalk) {
  return gaps.flatMap((gap) => {
    // What is left in a cylinder that is closed is told without its own weight.
    const offKg = gap.after === null ? tareKg : 0;
    if (!gap.isBeyond || offKg === null) return [];
    return [{ gap, refrigerant, tareKg, fromKg: gap.expectedKg + offKg, toKg: gap.shownKg + offKg }];
  });
}

function isNear(one: number, other: number, sdKg: number): boolean {
  return Math.abs(one - other) <= Math.max(nearKg, beyondScale * sdKg);
}

/** Whether the cylinder's weights go on where the weighing of a gap is left out; so they do after its last. */
function fitsWithout({ gaps }: CylinderWalk, at: number): boolean {
  const next = gaps[at + 1];
  if (next === undefined) return true;
  if (next.after === null) return next.isBeyond;
  return isNear(gaps[at].expectedKg, next.shownKg, Math.hypot(gaps[at].sdKg, next.sdKg));
}
