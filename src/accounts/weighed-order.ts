import type { CylinderWeighing } from './cylinder-record.ts';

/** A weighing that begins this near to where the one before ended goes on from it [kg]. Common practice, no source. */
const nearKg = 0.2;

/**
 * Weighings in the order in which one goes on from the other, where two are of one moment: which of them came first the record does not
 * say, and the weights may.
 *
 * @param weighings of one cylinder, in the order of time
 */
export function inWeighedOrder(weighings: readonly CylinderWeighing[]): CylinderWeighing[] {
  const ordered = [...weighings];
  for (let at = 0; at + 1 < ordered.length; at += 1) {
    const [one, other] = [ordered[at], ordered[at + 1]];
    const isPair = one.atMs === other.atMs && ordered[at + 2]?.atMs !== one.atMs && ordered[at - 1]?.atMs !== one.atMs;
    if (!isPair) continue;
    const beforeKg = ordered[at - 1]?.endKg;
    const jumpKg = (first: CylinderWeighing, second: CylinderWeighing) =>
      (beforeKg === undefined ? 0 : Math.abs(first.startKg - beforeKg)) + Math.abs(second.startKg - first.endKg);
    if (jumpKg(other, one) < nearKg && jumpKg(one, other) > nearKg) [ordered[at], ordered[at + 1]] = [other, one];
  }
  return ordered;
}
