import { describe, expect, test } from 'vitest';
import { type Comparison, comparedWithOthers } from '../../src/fleet/comparison.ts';
import type { FleetJobs, Units } from '../../src/fleet/fleet-jobs.ts';
import { MixColumns } from '../../src/fleet/mix-columns.ts';
import { skillOutcome, skillOutcomes, skills } from '../../src/fleet/skill.ts';
import { fitLogistic } from '../../src/numerics/penalised-logistic.ts';
import { drawnFleet } from '../fleet-power/drawn-fleet.ts';
import { jobsOf } from './any-fleet.ts';

const [evacuation] = skills.filter(({ id }) => id === 'evacuation');
const usual = { crewSize: 3, jobsEach: 60, base: 0.3, skills: ['evacuation'] } as const;

/** Levels differ by 0.5 [logit]; what is common to all has no penalty. */
function penaltiesOf({ blocks }: MixColumns): Float64Array {
  return new Float64Array(blocks.at(-1)?.end ?? 1).fill(4).fill(0, 0, 1);
}

function fitTo(mix: MixColumns, jobs: Int32Array, outcomes: Uint8Array) {
  const fit = fitLogistic(
    {
      ...mix.rows(jobs),
      successes: Float64Array.from(jobs, (job) => Number(outcomes[job] === skillOutcome.found)),
      trials: new Float64Array(jobs.length).fill(1),
    },
    penaltiesOf(mix),
  );
  if (fit === undefined) throw new Error('all but what is common has a penalty');
  return fit;
}

/** Each unit beside all others, with all jobs fitted but those that `isFitted` leaves out. */
function compared(jobs: FleetJobs, outcomes: Uint8Array, units: Units, isFitted = new Uint8Array(jobs.count).fill(1)) {
  const mix = new MixColumns(jobs, evacuation.factors);
  const all = Int32Array.from(jobs.days.keys());
  const { coefficients } = fitTo(
    mix,
    all.filter((job) => isFitted[job] === 1),
    outcomes,
  );
  const chances = mix.mixLogits(all, coefficients).map((logit) => 1 / (1 + Math.exp(-logit)));
  return comparedWithOthers(units, { mix, outcomes, chances, isFitted, penalties: penaltiesOf(mix) });
}

/** What the model of the others' jobs alone expects of a unit. */
function expectedOfOthers(jobs: FleetJobs, outcomes: Uint8Array, units: Units, unit: number): number {
  const mix = new MixColumns(jobs, evacuation.factors);
  const places = (isOwn: boolean) =>
    Int32Array.from(units.of.keys()).filter((job) => (units.of[job] === unit) === isOwn);
  const { coefficients } = fitTo(mix, places(false), outcomes);
  return mix.mixLogits(places(true), coefficients).reduce((sum, logit) => sum + 1 / (1 + Math.exp(-logit)), 0);
}

/** The one who did every other job, and the one who did the others. */
function halves(jobs: FleetJobs): Units {
  return { ids: ['one', 'other'], of: Int32Array.from({ length: jobs.count }, (_, job) => job % 2) };
}

describe('what others lead to expect', () => {
  const plan = {
    ...usual,
    technicians: 12,
    odds: ({ technician }: { technician: number }) => (technician === 4 ? 3 : 1),
  };

  test.each([
    ['usual findings', 0.3],
    ['rare ones', 0.05],
  ])('is what the model without the unit’s jobs expects: %s', (_, base) => {
    const jobs = drawnFleet({ ...plan, seed: 11, base });
    const outcomes = skillOutcomes(jobs, evacuation);
    const units = jobs.units.technician;
    for (const [unit, { expected }] of compared(jobs, outcomes, units).entries())
      expect(expected / expectedOfOthers(jobs, outcomes, units, unit)).toBeCloseTo(1, 1.1);
  });

  test('also of who did half of all jobs', () => {
    const jobs = drawnFleet({ ...usual, technicians: 12, seed: 12 });
    const outcomes = skillOutcomes(jobs, evacuation);
    for (const [unit, { expected }] of compared(jobs, outcomes, halves(jobs)).entries())
      expect(expected / expectedOfOthers(jobs, outcomes, halves(jobs), unit)).toBeCloseTo(1, 1.3);
  });

  test('of jobs that the model was not fitted to is what it expects of them', () => {
    const jobs = drawnFleet({ ...plan, seed: 13 });
    const outcomes = skillOutcomes(jobs, evacuation);
    const isOther = jobs.units.technician.of.map((unit) => Number(unit !== 4));
    const [own] = compared(jobs, outcomes, jobs.units.technician, Uint8Array.from(isOther)).slice(4);
    expect(own.expected).toBeCloseTo(expectedOfOthers(jobs, outcomes, jobs.units.technician, 4), 6);
  });
});

/** One unit of ten and more jobs of one kind beside others; by job whether it is found, whose it is, of which refrigerant. */
function shop(count: number, of: (job: number) => { found: boolean; unit: number; kind?: number }): Comparison[] {
  const each = Array.from({ length: count }, (_, job) => of(job));
  const jobs = jobsOf(each.map(() => []));
  jobs.mix.refrigerant.set(each.map(({ kind = 0 }) => kind));
  const outcomes = Uint8Array.from(each, ({ found }) => (found ? skillOutcome.found : skillOutcome.clean));
  const ids = Array.from({ length: Math.max(...each.map(({ unit }) => unit)) + 1 }, (_, at) => `unit-${at}`);
  return compared(jobs, outcomes, { ids, of: Int32Array.from(each, ({ unit }) => unit) });
}

describe('how well that is known', () => {
  test('of who alone does a kind of jobs it is not', () => {
    const [own, other] = shop(400, (job) => ({ found: job % 3 === 0, unit: job % 8, kind: job % 8 === 0 ? 1 : 2 }));
    expect(own.variance / own.byChance).toBeGreaterThan(4);
    expect(other.variance / other.byChance).toBeLessThan(1.5);
  });

  test('of who did all jobs nothing is known', () => {
    const [own] = shop(60, (job) => ({ found: job % 3 === 0, unit: 0 }));
    expect(own.variance).toBe(Number.POSITIVE_INFINITY);
    expect(own.expected).toBeCloseTo(20, 6);
  });

  test('it is never better known than chance leaves it', () => {
    const jobs = drawnFleet({ ...usual, technicians: 12, seed: 14 });
    const outcomes = skillOutcomes(jobs, evacuation);
    for (const { byChance, variance } of [
      ...compared(jobs, outcomes, jobs.units.technician),
      ...compared(jobs, outcomes, halves(jobs)),
    ])
      expect(variance).toBeGreaterThan(byChance);
  });
});

describe('far from all others', () => {
  test('who has hardly any of what a few others have often is held against their share', () => {
    // 900 jobs of which 18 are found, beside 100 of which 30 are.
    const [own, others] = shop(1000, (job) =>
      job % 10 === 0 ? { found: job % 100 < 30, unit: 1 } : { found: job % 50 === 1, unit: 0 },
    );
    expect(own.expected / 900).toBeCloseTo(0.3, 1.7);
    expect(others.expected / 100).toBeLessThan(0.04);
  });

  test('beside a single job of others it stays a number, and is not known', () => {
    const [own] = shop(1000, (job) => ({ found: job === 999, unit: job === 999 ? 1 : 0 }));
    expect(own.expected).toBeGreaterThan(0);
    expect(own.expected).toBeLessThanOrEqual(999);
    expect(own.variance / own.byChance).toBeGreaterThan(4);
    expect(own.variance).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  test('no fewer than none are expected of a few jobs of a kind of their own, all of them found', () => {
    const [own, other] = shop(12_000, (job) =>
      job < 40 ? { found: true, unit: 0, kind: 1 } : { found: job % 100 === 0, unit: 1 + (job % 40), kind: 2 },
    );
    expect(own.expected).toBeGreaterThan(0);
    expect(other.expected).toBeGreaterThan(0);
  });
});
