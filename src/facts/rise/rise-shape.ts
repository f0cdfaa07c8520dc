import type { Facts } from '../../records/tables/facts.ts';
import { partOf, partsAt, riseAt } from './make-up.ts';
import type { RiseFit } from './rise-fit.ts';
import { smallShare } from './rise-pieces.ts';

/** What tells how large a rise is. */
export interface RiseSize {
  /** Pressure at valve-off [Pa]. */
  readonly isolationPa: number;
  /** The level limit that the job records [Pa]; undefined where it records none. */
  readonly levelLimitPa: number | undefined;
  /** Accuracy of the gauge, relative, and standard deviation of the whole rise by noise [Pa]. */
  readonly accuracyRatio: number;
  readonly noisePa: number;
}

/** Without a level limit, a rise below 10 µm is dry [Pa]. Common practice, no source. */
const dryPa = 1.33322368;
/** An equalisation slower than this [s] that adds more than this ratio of the pressure may as well be quick moisture. */
const quickS = 10;
const muchSettling = 0.3;
/** Moisture that comes off with a shorter time constant [s] may as well be an equalisation through a liquid line. */
const quickMoistureS = 30;
/** A size is told from a bound from so many standard deviations on. */
const surely = 1.28;
// How much worse another explanation must fit [misfit over its scale]; set on simulated fleets (tests/truth).
/** That the rise is all of the other kind. */
const ruledOut = 3;
/** That the other kind has a part in it. */
const partlyRuledOut = { leak: 0.3, moisture: 0.7 } as const;
/** That the rise is moisture alone, where moisture shows: a dead end may give off water more steadily still than supposed. */
const ruledOutWet = 12;

type RiseShape = NonNullable<Facts['rise_shape']>;

/** The shape of a rise: its size first, then what it is made of, and `undecided` where the readings leave that open. */
export function riseShape(fit: RiseFit, size: RiseSize): RiseShape {
  const { isolationPa, levelLimitPa, accuracyRatio, noisePa } = size;
  const room = levelLimitPa === undefined ? undefined : Math.max(0, levelLimitPa - isolationPa);
  const boundPa = room === undefined ? dryPa : room / 10;
  const leakPa = fit.makeUp.leakPaPerS * fit.testS;
  const settlingPa = partsAt(fit.makeUp, ['settling'], fit.testS);
  const wholePa = riseAt(fit.makeUp, fit.testS);
  const comingInPa = wholePa - settlingPa;
  // The gain of the gauge moves the rise one way and the room, which starts at the pressure shown, the other.
  const moved = (accuracyRatio / 2) * (wholePa + (room === undefined ? 0 : isolationPa / 10));
  const deviationPa = Math.hypot(noisePa, moved);
  const dry = compare(wholePa, boundPa, deviationPa);
  if (dry === 'below') return 'dry';
  const quick = compare(comingInPa, Math.max(boundPa, smallShare * settlingPa), deviationPa);
  if (quick === 'below') {
    const isSlow = (partOf(fit.makeUp, 'settling')?.timeS ?? 0) > quickS;
    return dry === 'above' && !(isSlow && settlingPa > muchSettling * isolationPa) ? 'settling' : 'undecided';
  }
  if (dry === 'near' || quick === 'near') return 'undecided';
  const { none, part, all } = fit.against;
  const leakShare = leakPa / comingInPa;
  const { isWet } = fit;
  if (leakShare > 1 - smallShare)
    return none > ruledOut && part > (isWet ? ruledOut : partlyRuledOut.leak) ? 'leak' : 'undecided';
  if (leakShare < smallShare) {
    const timeS = partOf(fit.makeUp, 'saturating')?.timeS ?? Number.POSITIVE_INFINITY;
    return timeS > quickMoistureS && all > ruledOut && part > partlyRuledOut.moisture ? 'moisture' : 'undecided';
  }
  return none > (isWet ? ruledOutWet : ruledOut) && all > ruledOut ? 'mixed' : 'undecided';
}

function compare(value: number, bound: number, deviation: number): 'below' | 'near' | 'above' {
  if (value < bound - surely * deviation) return 'below';
  return value > bound + surely * deviation ? 'above' : 'near';
}
