import { Random } from '../numerics/random.ts';

/** Refrigerant that is going to leave a cylinder unrecorded. */
export interface CylinderLoss {
  readonly kg: number;
  /** Only once it has been weighed so many times. */
  readonly afterUses: number;
  /** When, as a share of the time between the two weighings around it. */
  readonly atRatio: number;
}

/** Share of supply cylinders that lose some, and how much [kg]: invented. */
const LOSS_SHARE = 0.015;
const LOSS_KG = [0.3, 3] as const;
/** What no loss takes: a cylinder with less is left alone [kg]. */
const HEEL_KG = 0.5;
/** Numbers of its own for every cylinder, apart from those of the jobs. */
const STREAM = -1_200_000_000;

/** Draws whether the cylinder of that number loses some of its content. */
export function drawCylinderLoss(seed: number, number: number): CylinderLoss | undefined {
  const random = new Random(seed, STREAM - number);
  if (!random.chance(LOSS_SHARE)) return undefined;
  return { kg: random.uniform(...LOSS_KG), afterUses: random.integer(1, 4), atRatio: random.uniform(0.05, 0.95) };
}

/** What leaves a cylinder that holds `leftKg`, to the gram; undefined where that is too little to be a loss. */
export function lossOf({ kg }: CylinderLoss, leftKg: number): number | undefined {
  const lostKg = Math.floor(Math.min(kg, leftKg - HEEL_KG) * 1000) / 1000;
  return lostKg < LOSS_KG[0] ? undefined : lostKg;
}
