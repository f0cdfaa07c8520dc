import { RiseColumns, type RiseOutlook } from './rise-columns.ts';
import { dropAt95, longestTests, type MakeUp, type RisePiece } from './rise-profile.ts';
import type { RiseSamples } from './rise-samples.ts';

/** A leak that makes every rival so much worse is found four times of five: (1.96 + 0.84)². */
const foundDrop = (Math.sqrt(dropAt95) + 1.2) ** 2;
/** More growth of the noise by the leak itself than this is not believed: then no leak is seen for what it is. */
const mostGrowth = 0.8;

/**
 * The smallest steady leak that such a test would have told from everything else, four times of five.
 *
 * To what the rise was made of without a leak, a leak is added; what the other parts could still imitate of it, within the
 * misfit that noise makes anyway, passes unseen.
 *
 * @param makeUp what the rise was made of, and its own leak, which is left out [Pa/s]
 * @param isWet whether moisture shows
 * @param scale misfit that counts as one
 * @returns [Pa/s]
 */
export function visibleLeak(
  samples: RiseSamples,
  outlook: RiseOutlook,
  { piece, leakPaPerS }: MakeUp,
  isWet: boolean,
  scale: number,
): number {
  const { sinceS } = samples;
  const without = sinceS.map((since) => valueAt(piece, leakPaPerS, outlook, since));
  const startPa = samples.vacuumPa[0];
  // The time constants that can imitate a line: the rise's own, and ones as long as the test.
  const own = piece.parts.find(({ part }) => part.kind === 'saturating')?.part.timeS ?? 0;
  const testS = sinceS[sinceS.length - 1];
  const timesS = own === 0 ? [longestTests * testS] : [own, longestTests * testS];
  const visibleWith = (leakPaPerS: number) => {
    const weights = samples.weights.map(
      (weight, i) => weight * ((startPa + without[i]) / (startPa + without[i] + leakPaPerS * sinceS[i])) ** 2,
    );
    const columns = new RiseColumns({ ...samples, vacuumPa: without, weights }, outlook, -1);
    let visible = 0;
    const see = () => {
      const { low, high, centre, least, curvature } = columns.solver;
      if (least > foundDrop * scale) return;
      const to = Math.min(high, centre + Math.sqrt((foundDrop * scale - least) / curvature));
      if (to >= low && to > visible) visible = to;
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

/** What the parts beside the leak have added after a time [Pa]. */
function valueAt(piece: RisePiece, leakPaPerS: number, { pumpedS }: RiseOutlook, sinceS: number): number {
  let value = 0;
  for (const { part, offset, slope } of piece.parts) {
    const shape = part.kind === 'tail' ? Math.log1p(sinceS / pumpedS) : 1 - Math.exp(-sinceS / part.timeS);
    value += Math.max(0, offset - leakPaPerS * slope) * shape;
  }
  return value;
}
