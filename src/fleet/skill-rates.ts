import { wilsonInterval } from '../numerics/wilson-interval.ts';
import { type CrossedCells, crossedEffects } from './crossed-effects.ts';
import { excessChances } from './excess-chances.ts';
import { expectation } from './expectation.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { type FunnelLimits, funnelLimits } from './funnel-limits.ts';
import { fitShareSpread, shrunkenShare, type ShrunkenShare } from './shrunken-shares.ts';
import { type Skill, skillOutcomes } from './skill.ts';
import { skillCells, unitCombinations } from './skill-cells.ts';
import { type UnitTally, unitTallies } from './unit-tallies.ts';

/** A rate of one unit in one skill. Shares and limits are ratios 0…1, null where no job was judged. */
export interface UnitRate extends UnitTally {
  readonly unit: number;
  readonly share: number | null;
  /** 95 % Wilson interval of the share. */
  readonly low: number | null;
  readonly high: number | null;
  /** The share as it is believed once all units of the grouping are known; null where nothing tells how they differ. */
  readonly shrunken: ShrunkenShare | null;
  /** Observed over expected; null where none is expected. */
  readonly ratio: number | null;
  /** Between which limits the share of such jobs lies by chance, and with what is usual between units besides. */
  readonly funnel: FunnelLimits | null;
  readonly widened: FunnelLimits | null;
  /** Odds beside what is expected, once the other groupings are taken out, with their 95 % interval; null where not looked for. */
  readonly own: { readonly ratio: number; readonly low: number; readonly high: number } | null;
  /** Chance to look so bad, or worse, though as others are; null where nobody can tell. */
  readonly chance: number | null;
}

/** What one grouping shows of a skill. */
export interface GroupingRates {
  readonly grouping: Grouping;
  readonly rates: readonly UnitRate[];
  /** Standard deviation between units that chance does not explain [logit]: by the funnel, and beside the other groupings. */
  readonly usualSpread: number;
  readonly ownSpread: number | null;
}

/** A skill over a fleet. */
export interface SkillRates {
  readonly skill: Skill;
  readonly fleet: UnitTally;
  readonly groupings: readonly GroupingRates[];
  readonly cells: CrossedCells;
  readonly outcomes: Uint8Array;
  /** Expected chance of each job; NaN where it was not judged. */
  readonly chances: Float64Array;
}

const normal95 = 1.959964;

/** Rates of a skill for technicians, crews, and the instruments that it is done with. */
export function skillRates(jobs: FleetJobs, skill: Skill): SkillRates {
  const outcomes = skillOutcomes(jobs, skill);
  const { chances, comparisons } = expectation(jobs, outcomes, skill.factors);
  const of: readonly Grouping[] = ['technician', 'crew', ...skill.instruments];
  const [fleet] = unitTallies({ ids: ['fleet'], of: new Int32Array(jobs.count) }, outcomes, chances);
  const isTold = fleet.found > 0 && fleet.found < fleet.jobs;
  const cells = skillCells(jobs, unitCombinations(jobs, of), outcomes, chances);
  const effects = isTold ? crossedEffects(cells) : undefined;
  const groupings = of.map((grouping, at): GroupingRates => {
    const tallies = unitTallies(jobs.units[grouping], outcomes, chances);
    const spread = fitShareSpread(tallies);
    const { chances: excess, usualVariance } = excessChances(tallies, comparisons(grouping));
    const own = effects?.groupings[at];
    return {
      grouping,
      usualSpread: Math.sqrt(usualVariance),
      ownSpread: own?.spread ?? null,
      rates: tallies.map((tally, unit): UnitRate => {
        const isJudged = tally.jobs > 0;
        const { low, high } = isJudged ? wilsonInterval(tally.found, tally.jobs) : { low: null, high: null };
        const funnel = isJudged && tally.variance > 0 ? funnelLimits(tally.expected / tally.jobs, tally.jobs) : null;
        return {
          ...tally,
          unit,
          share: isJudged ? tally.found / tally.jobs : null,
          low,
          high,
          shrunken: spread === undefined ? null : shrunkenShare(tally, spread),
          ratio: tally.expected > 0 ? tally.found / tally.expected : null,
          funnel,
          widened: funnel && widenedLimits(funnel, tally, usualVariance),
          own: own === undefined || !isJudged ? null : oddsOf(own.effects[unit], own.deviations[unit]),
          chance: Number.isNaN(excess[unit]) ? null : excess[unit],
        };
      }),
    };
  });
  return { skill, fleet, groupings, cells, outcomes, chances };
}

function oddsOf(effect: number, deviation: number): { ratio: number; low: number; high: number } {
  return {
    ratio: Math.exp(effect),
    low: Math.exp(effect - normal95 * deviation),
    high: Math.exp(effect + normal95 * deviation),
  };
}

/** Limits as far from their middle as what is usual between units adds to chance. */
function widenedLimits(
  limits: FunnelLimits,
  { expected, jobs, variance }: UnitTally,
  usualVariance: number,
): FunnelLimits {
  const middle = expected / jobs;
  const factor = Math.sqrt(1 + usualVariance * variance);
  const wider = (limit: number): number => Math.min(1, Math.max(0, middle + factor * (limit - middle)));
  return {
    low95: wider(limits.low95),
    high95: wider(limits.high95),
    low998: wider(limits.low998),
    high998: wider(limits.high998),
  };
}
