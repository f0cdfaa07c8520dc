/** One size of refrigeration copper tube. */
export interface CopperTube {
  readonly outerDiameterM: number;
  readonly wallM: number;
  readonly boreM: number;
  readonly innerVolumeM3PerM: number;
}

const INCH_M = 0.0254;
/** How far a recorded outer diameter may lie from the nominal one: records round 9.525 mm to 9.52, 9.5 or 9.6. */
const TOLERANCE_M = 0.00012;

/** Outer diameter and wall [in], ASTM B280, from memory. */
const sizesIn = [
  [1 / 8, 0.03],
  [3 / 16, 0.03],
  [1 / 4, 0.03],
  [5 / 16, 0.032],
  [3 / 8, 0.032],
  [1 / 2, 0.032],
  [5 / 8, 0.035],
  [3 / 4, 0.035],
  [7 / 8, 0.045],
  [9 / 8, 0.05],
  [11 / 8, 0.055],
  [13 / 8, 0.06],
] as const;

/** Every size of the table, from thin to thick. */
export const copperTubes: readonly CopperTube[] = sizesIn.map(([outerIn, wallIn]) => {
  const boreM = (outerIn - 2 * wallIn) * INCH_M;
  return {
    outerDiameterM: outerIn * INCH_M,
    wallM: wallIn * INCH_M,
    boreM,
    innerVolumeM3PerM: (Math.PI / 4) * boreM ** 2,
  };
});

/**
 * Wall, bore and inner volume of a copper tube, by its outer diameter.
 *
 * For the volume of a line set and the mass of liquid that it holds.
 *
 * @param outerDiameterM outer diameter [m]; within 0.12 mm of a size of the table
 * @returns the tube [m, m³/m]; undefined where the table has no such size
 *
 * Source: `astm-b280`, walls of annealed coils. Accuracy: nominal sizes, without mill tolerances.
 *
 * @example
 * copperTube(0.009525)?.boreM // 0.0078994
 */
export function copperTube(outerDiameterM: number): CopperTube | undefined {
  return copperTubes.find((tube) => Math.abs(tube.outerDiameterM - outerDiameterM) <= TOLERANCE_M);
}
