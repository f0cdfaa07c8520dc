import { lineMinimum } from '../../numerics/line-minimum.ts';
import type { SomeFollowUps } from './follow-up.ts';

/** How far shapes usually are from 1 [logarithm], a hazard that does not change with age: what few callbacks say is drawn in. Common practice, no source. */
const usualSpread = 0.5;

/**
 * The hazard of a callback by the days since the job: Weibull's, which falls or rises evenly over the logarithm of the age. It falls where
 * the worst jobs call first, and goes on beyond the oldest job that was watched, as every new record needs.
 *
 * @example
 * // As many callbacks as days: one a day.
 * new AgeHazard({ entries: Float64Array.of(-1, -1), stops: Float64Array.of(0, 0), events: Uint8Array.of(1, 1) }).between(-1, 0).toFixed(3) // '1.000'
 */
export class AgeHazard {
  readonly #scale: number;
  readonly #shape: number;

  /** @param relative hazard of each job beside one for which this is the hazard; absent: 1 */
  constructor(
    { entries, stops, events, weights }: Pick<SomeFollowUps, 'entries' | 'stops' | 'events' | 'weights'>,
    relative: (row: number) => number = () => 1,
  ) {
    // Ages are whole days: hazards are added up by age once, not for every shape.
    const oldest = stops.reduce((most, stop) => Math.max(most, stop), 0);
    const ended = new Float64Array(oldest + 2);
    let [callbacks, logarithms] = [0, 0];
    for (let row = 0; row < stops.length; row += 1) {
      const own = relative(row) * (weights === undefined ? 1 : weights[row]);
      ended[stops[row] + 1] += own;
      ended[entries[row] + 1] -= own;
      if (events[row] === 0) continue;
      callbacks += 1;
      logarithms += Math.log(midday(stops[row]));
    }
    const watched = (shape: number): number =>
      ended.reduce((sum, each, days) => sum + each * midday(days - 1) ** shape, 0);
    // The likelihood with the scale at its best, and what is usual of shapes.
    const misfit = (logShape: number): number => {
      const shape = Math.exp(logShape);
      const likelihood = callbacks * (logShape - Math.log(watched(shape))) + (shape - 1) * logarithms;
      return -likelihood + 0.5 * (logShape / usualSpread) ** 2;
    };
    this.#shape = callbacks === 0 ? 1 : Math.exp(lineMinimum(misfit, 0, 0.1, 1e-6)?.at ?? 0);
    this.#scale = callbacks / watched(this.#shape);
  }

  /** What adds up between two ages [days], the first left out. */
  between(fromAge: number, toAge: number): number {
    return this.#scale * grown(fromAge, toAge, this.#shape);
  }
}

function grown(fromAge: number, toAge: number, shape: number): number {
  return Math.max(0, midday(toAge) ** shape - midday(fromAge) ** shape);
}

/** What happens on a day happens in its middle, the day of the job among them. */
function midday(age: number): number {
  return Math.max(0, age + 0.5);
}
