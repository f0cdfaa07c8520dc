import type { LifeTableRow } from '../../src/charts/called-back-by-age.ts';
import { drawnCells } from './drawn-cells.ts';

export const lifeTableGroups = ['flagged', 'clean', 'tests not judged'] as const;

/** Jobs as they were watched in steps of thirty days, of some until they called back; nobody leaves who has not begun. */
export const lifeTableRows: readonly LifeTableRow[] = lifeTableGroups.flatMap((group, seed) =>
  drawnCells<LifeTableRow & { steps: readonly Partial<LifeTableRow>[] }>(20 + seed, (random) => {
    const began = random.integer(0, 4);
    let under = began;
    const steps: Partial<LifeTableRow>[] = [{ step: -1, began }];
    for (let step = 0; step <= 12; step += 1) {
      const late = random.chance(0.1) ? 1 : 0;
      const called = Math.min(under, random.chance(0.12 / (seed + 1)) ? 1 : 0);
      const left = step === 12 ? under + late - called : Math.min(under - called, random.chance(0.1) ? 1 : 0);
      under += late - called - left;
      if (late + called + left > 0) steps.push({ step, late, called, left });
    }
    return { group, step: 0, began: 0, late: 0, left: 0, called: 0, steps };
  }).flatMap(({ steps, ...cell }) => steps.map((step) => ({ ...cell, ...step }))),
);
