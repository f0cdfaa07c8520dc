import { wilsonInterval } from '../numerics/wilson-interval.ts';
import { type FunnelLimits, funnelLimits } from './statistics/funnel-limits.ts';
import { shrunkenShare, type ShrunkenShare } from './statistics/shrunken-shares.ts';
import type { GroupingRates } from './skill-rates.ts';
import type { UnitTally } from './unit-counts.ts';

/** All that is said of the rate of one unit in one skill. Shares and limits are ratios 0…1, null where no job was judged. */
export interface UnitRate extends Omit<UnitTally, 'variance'> {
  /** As in `Comparison`; null where nobody else is there to compare with. */
  readonly variance: number | null;
  readonly share: number | null;
  /** 95 % Wilson interval of the share. */
  readonly low: number | null;
  readonly high: number | null;
  /** The share as it is believed once all units of the grouping are known; null where nothing tells how they differ. */
  readonly shrunken: ShrunkenShare | null;
  /** Found over expected; null where none is expected. */
  readonly ratio: number | null;
  /** Between which limits the share of such jobs lies by chance. */
  readonly funnel: FunnelLimits | null;
  /** The same with what is not known of such jobs, and what units usually differ, besides. */
  readonly widened: FunnelLimits | null;
  /**
   * Odds beside what is expected, the other groupings taken out, with their 95 % interval, taking it for known how much units differ;
   * null where that was not looked for, or where they do not differ beyond chance.
   */
  readonly own: { readonly ratio: number; readonly low: number; readonly high: number } | null;
  /** Chance to look so bad, or worse, though as others are; null where nobody can tell. */
  readonly chance: number | null;
}

const normal95 = 1.959964;

/** The rate of a unit, by its place among the units of the grouping. */
export function unitRate({ tallies, excess, spread, own }: GroupingRates, unit: number): UnitRate {
  const tally = tallies[unit];
  const { found, jobs, expected, byChance } = tally;
  const isJudged = jobs > 0;
  const { low, high } = isJudged ? wilsonInterval(found, jobs) : { low: null, high: null };
  const funnel = byChance > 0 ? funnelLimits(expected / jobs, jobs) : null;
  const chance = excess.chances[unit];
  const isCompared = Number.isFinite(tally.variance);
  return {
    ...tally,
    variance: isCompared ? tally.variance : null,
    share: isJudged ? found / jobs : null,
    low,
    high,
    shrunken: spread === undefined ? null : shrunkenShare(tally, spread),
    ratio: expected > 0 && isCompared ? found / expected : null,
    funnel,
    widened:
      funnel && isCompared ? widened(funnel, expected / jobs, Math.sqrt(excess.variances[unit] / byChance)) : null,
    own: own === undefined || own.spread === 0 || !isJudged ? null : oddsOf(own.effects[unit], own.deviations[unit]),
    chance: Number.isNaN(chance) ? null : chance,
  };
}

function oddsOf(effect: number, deviation: number): { ratio: number; low: number; high: number } {
  const [ratio, low, high] = [0, -normal95, normal95].map((normal) => Math.exp(effect + normal * deviation));
  return { ratio, low, high };
}

/** Limits so many times as far from their middle. */
function widened({ low95, high95, low998, high998 }: FunnelLimits, middle: number, factor: number): FunnelLimits {
  const wider = (limit: number): number => Math.min(1, Math.max(0, middle + factor * (limit - middle)));
  return { low95: wider(low95), high95: wider(high95), low998: wider(low998), high998: wider(high998) };
}
