/** Steps that scales have [kg], the coarsest first. Common practice, no source. */
const stepsKg = [0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001];
/** Of fewer weights nothing is told. */
const fewestWeights = 6;
/** Step of a scale of which nothing tells [kg]. Common practice, no source. */
const usualStepKg = 0.01;

/**
 * The step of a scale by the weights that were written from it: the coarsest of which all are multiples.
 *
 * @param weightsKg as written [kg]
 * @example scaleStepKg([12.35, 11.6, 11.55, 10.05, 9.95, 8.1]) // 0.05
 */
export function scaleStepKg(weightsKg: readonly number[]): number {
  if (weightsKg.length < fewestWeights) return usualStepKg;
  const isMultiple = (kg: number, stepKg: number) =>
    Math.abs(kg / stepKg - Math.round(kg / stepKg)) < 1e-6 * Math.abs(kg / stepKg) + 1e-6;
  return stepsKg.find((stepKg) => weightsKg.every((kg) => isMultiple(kg, stepKg))) ?? 0.001;
}
