import { shrunkenRatios } from '../statistics/shrunken-ratios.ts';
import type { FollowUps } from './follow-up.ts';

/** Ages at which the hazard may change [days]; the last part goes on for ever. Common practice, no source. */
const bounds = [14, 45, 90, 180];

/**
 * The hazard of a callback by the days since the job: even within each of a few parts, and each drawn to that of all the more, the fewer
 * callbacks tell of it. Goes on beyond the oldest job that was watched, as every new record needs.
 */
export class AgeHazard {
  /** A day, by part. */
  readonly #rates: Float64Array;

  /** @param relative hazard of each job beside one for which this is the hazard; absent: 1 */
  constructor(
    { entries, stops, events }: Pick<FollowUps, 'entries' | 'stops' | 'events'>,
    relative: (row: number) => number = () => 1,
  ) {
    const parts = bounds.length + 1;
    const [came, watched] = [new Float64Array(parts), new Float64Array(parts)];
    for (let row = 0; row < stops.length; row += 1) {
      const own = relative(row);
      for (let part = 0; part < parts; part += 1) watched[part] += own * daysWithin(part, entries[row], stops[row]);
      if (events[row] === 1) came[partOf(stops[row])] += 1;
    }
    const known = [...watched.keys()].filter((part) => watched[part] > 0);
    const rates = shrunkenRatios(
      known.map((part) => came[part]),
      known.map((part) => watched[part]),
    );
    const sum = (values: Float64Array): number => values.reduce((all, value) => all + value, 0);
    this.#rates = new Float64Array(parts).fill(sum(came) / sum(watched));
    for (const [at, part] of known.entries()) this.#rates[part] = rates[at];
  }

  /** What adds up between two ages [days], the first left out. */
  between(fromAge: number, toAge: number): number {
    return this.#rates.reduce((sum, rate, part) => sum + rate * daysWithin(part, fromAge, toAge), 0);
  }
}

/** Of the days after one age up to another, those within a part. */
function daysWithin(part: number, fromAge: number, toAge: number): number {
  const [begin, end] = [
    part === 0 ? Number.NEGATIVE_INFINITY : bounds[part - 1],
    bounds[part] ?? Number.POSITIVE_INFINITY,
  ];
  return Math.max(0, Math.min(toAge, end) - Math.max(fromAge, begin));
}

function partOf(age: number): number {
  const part = bounds.findIndex((bound) => age <= bound);
  return part < 0 ? bounds.length : part;
}
