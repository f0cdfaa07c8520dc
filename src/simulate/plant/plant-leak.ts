import type { Random } from '../../numerics/random.ts';
import { days } from '../calendar.ts';

/** How much of its charge an appliance loses. */
export type LossBand = 'low' | 'high' | 'chronic';

interface Band {
  /** Loss of a year in which nothing is repaired, as a share of the full charge. */
  readonly lossRatio: readonly [number, number];
  /** What is left of the rate by a repair. */
  readonly leftRatio: readonly [number, number];
  /** Days between visits. */
  readonly visitDays: readonly [number, number];
  /** Until that day the rate is that share of its mean, so that much falls into one calendar year. */
  readonly worsens?: { readonly onDay: number; readonly beforeRatio: number };
}

/** Invented. */
export const lossBands: Readonly<Record<LossBand, Band>> = {
  low: { lossRatio: [0.01, 0.08], leftRatio: [0.1, 0.3], visitDays: [50, 110] },
  high: { lossRatio: [0.15, 0.6], leftRatio: [0.1, 0.3], visitDays: [21, 60] },
  chronic: {
    lossRatio: [1.5, 1.8],
    leftRatio: [0.85, 0.95],
    visitDays: [9, 16],
    worsens: { onDay: 184, beforeRatio: 0.1 },
  },
};

/** What an appliance holds, and loses day by day. */
export class PlantLeak {
  readonly #band: Band;
  /** In a year in which nothing is repaired [kg]. */
  readonly kgPerYear: number;
  /** What stands against the rate by repairs, 1 without. */
  #ratio = 1;
  contentKg: number;
  /** What it would hold were it tight: the full charge less what is kept elsewhere [kg]. */
  tightKg: number;
  lostKg = 0;

  constructor(random: Random, band: LossBand, fullChargeKg: number, contentKg: number) {
    this.#band = lossBands[band];
    this.kgPerYear = fullChargeKg * random.uniform(...this.#band.lossRatio);
    this.contentKg = contentKg;
    this.tightKg = contentKg;
  }

  /** What the leaks have taken and nobody has put back [kg]. */
  get missingKg(): number {
    return this.tightKg - this.contentKg;
  }

  /** Lets a day's loss out; never more than is in it. */
  pass(day: number): void {
    const goneKg = Math.min(this.contentKg, (this.kgPerYear / days) * this.#ratio * courseRatio(this.#band, day));
    this.contentKg -= goneKg;
    this.lostKg += goneKg;
  }

  repair(random: Random): void {
    this.#ratio = random.uniform(...this.#band.leftRatio);
  }

  /** Another leak begins. */
  worsen(): void {
    this.#ratio = 1;
  }
}

/** Rate of a day against that of the whole year, 1 on average. */
function courseRatio({ worsens }: Band, day: number): number {
  if (worsens === undefined) return 1;
  if (day < worsens.onDay) return worsens.beforeRatio;
  return (days - worsens.onDay * worsens.beforeRatio) / (days - worsens.onDay);
}
