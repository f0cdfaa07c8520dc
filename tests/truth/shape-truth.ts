import { type RiseParts, type RiseShape, riseShape, slowAsMoistureShape } from '../../src/simulate/rise-shape.ts';

/** The true shape of a rise, and what is near it. */
export interface ShapeTruth {
  readonly shape: RiseShape;
  /** Shapes as right as that one: nothing in a rise tells slow settling from moisture. */
  readonly alsoRight: readonly RiseShape[];
  /** Shapes that a rise would have whose parts are a quarter smaller or larger, each alone or all together. */
  readonly nearShapes: readonly RiseShape[];
}

/**
 * The shape of a rise from its parts.
 *
 * @param slowPa the share of `settlingPa` that is as slow as moisture
 */
export function shapeTruth(parts: RiseParts, slowPa: number, levelLimitPa: number | undefined): ShapeTruth {
  const multiples = [0.8, 1, 1.25];
  const near = new Set<RiseShape>();
  for (const leak of multiples)
    for (const vapour of multiples)
      for (const settling of multiples) {
        const { startPa, leakPa, vapourPa, settlingPa } = parts;
        const other = {
          startPa,
          leakPa: leak * leakPa,
          vapourPa: vapour * vapourPa,
          settlingPa: settling * settlingPa,
        };
        near.add(riseShape(other, levelLimitPa));
      }
  return {
    shape: riseShape(parts, levelLimitPa),
    alsoRight: slowPa > 0 ? [slowAsMoistureShape(parts, slowPa, levelLimitPa)] : [],
    nearShapes: [...near],
  };
}
