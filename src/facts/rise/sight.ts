import { type MakeUp, partOf, riseAt } from './make-up.ts';
import { partAt } from './rise-basis.ts';
import { dropAt95, longestTests, type RiseProfile } from './rise-profile.ts';
import type { RiseSamples } from './rise-samples.ts';

/**
 * A leak that makes every rival so much worse is found four times of five. For noise alone 0.84 would do for the second
 * term; the rest is for what is not modelled. Set on simulated fleets (tests/truth).
 */
const foundDrop = (Math.sqrt(dropAt95) + 1.15) ** 2;
/**
 * A leak that raises the pressure by x of its mean makes the noise so many times x larger: found by weighing simulated rises
 * with the leak and without, 0.43 to 0.53 of them up to x = 1.2.
 */
const noiseGrowth = 0.47;
/** More growth of the noise by the leak itself than this is not believed: then no leak is seen for what it is. */
const mostGrowth = 0.8;

/** The least that a rise test could have seen, four times of five [Pa/s]. */
export interface Sight {
  /** A steady rise, of whatever it be. */
  readonly risePaPerS: number;
  /** A leak, told from everything else. */
  readonly leakPaPerS: number;
}

/**
 * The smallest steady rise that such a test would have shown, and the smallest leak that it would have told from
 * everything else.
 *
 * To what the rise was made of without a leak, a leak is added; what the equalisation alone, or all other parts, could
 * still imitate of it, within the misfit that noise makes anyway, passes unseen.
 *
 * @param columns of the same samples; they are turned to this question, and of no use for another one after it
 * @param makeUp what the rise was made of, and its own leak, which is left out
 * @param scale misfit that counts as one
 */
export function sight(
  samples: RiseSamples,
  { columns, isWet }: Pick<RiseProfile, 'columns' | 'isWet'>,
  makeUp: MakeUp,
  scale: number,
): Sight {
  const { basis, solver } = columns;
  const without = samples.sinceS.map((since) => riseAt({ leakPaPerS: 0, parts: makeUp.parts }, since));
  // The time constants that can imitate a line: the rise's own, and the longest.
  const own = partOf(makeUp, 'saturating');
  const longestS = longestTests * basis.testS;
  const timesS = own === undefined ? [longestS] : [own.timeS, longestS];
  columns.turn(without);
  let risePaPerS = 0;
  let leakPaPerS = 0;
  const see = (set: readonly number[]) => {
    // What a line has of its own beside the equalisation does not depend on what else was read.
    if (set.every((place) => partAt(place) === 'settling'))
      risePaPerS = Math.max(risePaPerS, Math.sqrt((foundDrop * scale) / solver.curvature));
    if (solver.least > foundDrop * scale) return;
    const to = Math.min(solver.high, solver.centre + Math.sqrt((foundDrop * scale - solver.least) / solver.curvature));
    if (to >= solver.low && to > leakPaPerS) leakPaPerS = to;
  };
  columns.eachSet('dry', 0, see);
  for (const timeS of timesS) {
    columns.eachSet('moist', timeS, see);
    if (isWet) columns.eachSet('wet', timeS, see);
  }
  // The noise grows with the pressure that the leak itself brings.
  const meanPa = samples.vacuumPa[0] + without[without.length - 1] / 2;
  const growth = Math.min(mostGrowth, (noiseGrowth * leakPaPerS * basis.testS) / meanPa);
  return { risePaPerS, leakPaPerS: leakPaPerS / (1 - growth) };
}
