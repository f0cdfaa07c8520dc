import { RiseColumns } from './rise-columns.ts';
import { dropAt95, longestTests, type MakeUp, type RiseProfile } from './rise-profile.ts';
import type { RiseSamples } from './rise-samples.ts';

/**
 * A leak that makes every rival so much worse is found four times of five. For noise alone 0.84 would do for the second
 * term; the rest is for what is not modelled. Set on simulated fleets (tests/truth).
 */
const foundDrop = (Math.sqrt(dropAt95) + 1.2) ** 2;
/** More growth of the noise by the leak itself than this is not believed: then no leak is seen for what it is. */
const mostGrowth = 0.8;

/**
 * The smallest steady leak that such a test would have told from everything else, four times of five.
 *
 * To what the rise was made of without a leak, a leak is added; what the other parts could still imitate of it, within the
 * misfit that noise makes anyway, passes unseen.
 *
 * @param makeUp what the rise was made of, and its own leak, which is left out
 * @param scale misfit that counts as one
 * @returns [Pa/s]
 */
export function visibleLeak(samples: RiseSamples, profile: RiseProfile, makeUp: MakeUp, scale: number): number {
  const { basis, isWet } = profile;
  const without = withoutLeak(samples, makeUp);
  const startPa = samples.vacuumPa[0];
  // The time constants that can imitate a line: the rise's own, and the longest.
  const own = makeUp.piece.parts.indexOf('saturating');
  const longestS = longestTests * basis.testS;
  const timesS = own < 0 ? [longestS] : [makeUp.piece.timesS[own], longestS];
  const weights = new Float64Array(without.length);
  const visibleWith = (leakPaPerS: number) => {
    for (let i = 0; i < weights.length; i += 1) {
      const pa = startPa + without[i];
      weights[i] = samples.weights[i] * (pa / (pa + leakPaPerS * basis.sinceS[i])) ** 2;
    }
    const columns = new RiseColumns(basis, without, weights, -1);
    const { solver } = columns;
    let visible = 0;
    const see = () => {
      if (solver.least > foundDrop * scale) return;
      const to = Math.min(
        solver.high,
        solver.centre + Math.sqrt((foundDrop * scale - solver.least) / solver.curvature),
      );
      if (to >= solver.low && to > visible) visible = to;
    };
    columns.eachSet('dry', 0, see);
    for (const timeS of timesS) {
      columns.eachSet('moist', timeS, see);
      if (isWet) columns.eachSet('wet', timeS, see);
    }
    return visible;
  };
  // The noise grows with the pressure that the leak itself brings: each step adds about the same share of the one before.
  const first = visibleWith(0);
  const second = visibleWith(first);
  const growth = Math.min(mostGrowth, Math.max(0, second / first - 1));
  return first / (1 - growth);
}

/** What the parts beside the leak have added at each mean [Pa]. */
function withoutLeak({ sinceS }: RiseSamples, { piece, leakPaPerS }: MakeUp): Float64Array {
  const values = new Float64Array(sinceS.length);
  for (let index = 0; index < piece.parts.length; index += 1) {
    const size = Math.max(0, piece.offsets[index] - leakPaPerS * piece.slopes[index]);
    const timeS = piece.timesS[index];
    const isTail = piece.parts[index] === 'tail';
    for (let i = 0; i < values.length; i += 1)
      values[i] += size * (isTail ? Math.log1p(sinceS[i] / timeS) : 1 - Math.exp(-sinceS[i] / timeS));
  }
  return values;
}
