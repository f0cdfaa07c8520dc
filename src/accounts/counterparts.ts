import type { CylinderGap, CylinderWalk } from './cylinder-walk.ts';

/** Masses that differ by less are the same [kg]. Common practice, no source. */
const nearKg = 0.06;

/**
 * For what is missing from a cylinder, another of the same refrigerant in which as much is too much, found in the same days: a weighing
 * of the one may have been written for the other. And the other way round.
 *
 * A hint, no proof: weights taken on a scale that was set to 0 do not tell of which cylinder they are.
 */
export function counterparts(walks: readonly CylinderWalk[]): Map<CylinderGap, string> {
  const beyond = walks.flatMap(({ cylinder: { refrigerant }, gaps }) =>
    gaps.filter(({ isBeyond }) => isBeyond).map((gap) => ({ gap, refrigerant })),
  );
  const found = new Map<CylinderGap, string>();
  for (const own of Map.groupBy(beyond, ({ refrigerant }) => refrigerant).values()) {
    const tooMuch = own.filter(({ gap }) => gap.kg < 0).toSorted((a, b) => a.gap.kg - b.gap.kg);
    for (const { gap } of own.filter(({ gap: { kg } }) => kg > 0)) {
      const other = tooMuch.find(
        ({ gap: one }) =>
          Math.abs(one.kg + gap.kg) <= nearKg &&
          one.cylinderId !== gap.cylinderId &&
          !found.has(one) &&
          overlap(one, gap),
      );
      if (other === undefined) continue;
      found.set(gap, other.gap.cylinderId);
      found.set(other.gap, gap.cylinderId);
    }
  }
  return found;
}

/** Whether both came about in some day that they share. */
function overlap(one: CylinderGap, other: CylinderGap): boolean {
  const from = ({ fromDay }: CylinderGap) => fromDay ?? Number.NEGATIVE_INFINITY;
  return Math.max(from(one), from(other)) <= Math.min(one.day, other.day);
}
