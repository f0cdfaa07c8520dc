import { expect, test } from 'vitest';
import { expectation } from '../../src/fleet/expectation.ts';
import type { FleetJobs } from '../../src/fleet/fleet-jobs.ts';
import { skillOutcome, skillOutcomes, skills } from '../../src/fleet/skill.ts';
import { unitCounts } from '../../src/fleet/unit-counts.ts';
import { drawnFleet } from '../fleet-power/drawn-fleet.ts';

const [evacuation] = skills.filter(({ id }) => id === 'evacuation');
const usual = { technicians: 12, crewSize: 3, jobsEach: 60, base: 0.3, skills: ['evacuation'] } as const;

function mean(values: ArrayLike<number>, of: (job: number) => boolean): number {
  const some = Array.from(values).filter((_, job) => of(job));
  return some.reduce((sum, value) => sum + value, 0) / some.length;
}

test('what is expected of long and of short lines is what all people have of them', () => {
  const jobs = drawnFleet({ ...usual, seed: 5, jobsEach: 400 });
  const outcomes = skillOutcomes(jobs, evacuation);
  const { chances } = expectation(jobs, outcomes, evacuation.factors);
  for (const level of [2, 4]) {
    const isOf = (job: number): boolean => jobs.mix.line_length_m[job] === level;
    const found = mean(
      Array.from(outcomes, (outcome) => Number(outcome === skillOutcome.found)),
      isOf,
    );
    expect(mean(chances, isOf)).toBeCloseTo(found, 1.7);
  }
  // 0.25 and 0.45 were drawn: odds of 2.5.
  const odds = [2, 4]
    .map((level) => mean(chances, (job) => jobs.mix.line_length_m[job] === level))
    .map((p) => p / (1 - p));
  expect(odds[1] / odds[0]).toBeGreaterThan(2);
  expect(odds[1] / odds[0]).toBeLessThan(3.1);
});

test('with many people as many are expected as were found', () => {
  const jobs = drawnFleet({ ...usual, seed: 6, technicians: 150, jobsEach: 120 });
  const outcomes = skillOutcomes(jobs, evacuation);
  const { chances } = expectation(jobs, outcomes, evacuation.factors);
  const found = outcomes.reduce((sum, outcome) => sum + Number(outcome === skillOutcome.found), 0);
  expect(Math.abs(chances.reduce((sum, chance) => sum + chance, 0) - found)).toBeLessThan(5);
});

test('a season is taken for a season', () => {
  // Midwinter is twice as bad in odds as midsummer, for everybody.
  const jobs = drawnFleet({
    ...usual,
    seed: 7,
    jobsEach: 300,
    odds: ({ time }) => Math.exp(0.7 * Math.cos(2 * Math.PI * time)),
  });
  const { chances } = expectation(jobs, skillOutcomes(jobs, evacuation), evacuation.factors);
  const [first, last] = [jobs.days[0], jobs.days.at(-1) ?? 0];
  const when = (job: number): number => (jobs.days[job] - first) / (last - first);
  const winter = mean(chances, (job) => when(job) < 0.1 || when(job) > 0.9);
  const summer = mean(chances, (job) => Math.abs(when(job) - 0.5) < 0.1);
  expect(winter / (1 - winter) / (summer / (1 - summer))).toBeGreaterThan(2.5);
});

/** The fleet, but one person alone has a gauge of other steps. */
function withOwnGauge(jobs: FleetJobs, person: number): FleetJobs {
  const levels = jobs.mix.gauge_step_pa.map((_, job) => (jobs.units.technician.of[job] === person ? 3 : 1));
  return { ...jobs, mix: { ...jobs.mix, gauge_step_pa: levels } };
}

test('who alone has some gauge is not taken for the gauge', () => {
  const [rise] = skills.filter(({ id }) => id === 'rise');
  const plan = { ...usual, skills: ['rise'], odds: (job: { technician: number }) => (job.technician === 4 ? 6 : 1) };
  const jobs = withOwnGauge(drawnFleet({ ...plan, seed: 1 }), 4);
  const outcomes = skillOutcomes(jobs, rise);
  const { expected } = expectation(jobs, outcomes, rise.factors).comparisons('technician')[4];
  const { found } = unitCounts(jobs.units.technician, outcomes)[4];
  // Some 0.3 of others and 0.7 of this one.
  expect(found / expected).toBeGreaterThan(1.7);
});

test.each([
  [12, 60],
  [12, 600],
  [140, 30],
])('%d alike people of %d jobs each are as far from what is expected as chance takes them', (technicians, jobsEach) => {
  let [squares, units] = [0, 0];
  for (let seed = 1; seed <= (technicians > 100 ? 8 : jobsEach > 100 ? 25 : 60); seed += 1) {
    const jobs = drawnFleet({ ...usual, seed, technicians, crewSize: 3, jobsEach });
    const outcomes = skillOutcomes(jobs, evacuation);
    const compared = expectation(jobs, outcomes, evacuation.factors).comparisons('technician');
    for (const [unit, { found }] of unitCounts(jobs.units.technician, outcomes).entries()) {
      squares += (found - compared[unit].expected) ** 2 / compared[unit].variance;
      units += 1;
    }
  }
  expect(squares / units).toBeGreaterThan(0.85);
  expect(squares / units).toBeLessThan(1.15);
});

test('of a person who alone does a kind of job little is told apart from it', () => {
  const jobs = drawnFleet({ ...usual, seed: 8, longLines: (technician) => (technician === 4 ? 1 : 0) });
  const { comparisons } = expectation(jobs, skillOutcomes(jobs, evacuation), evacuation.factors);
  const unsure = comparisons('technician').map(({ variance, byChance }) => variance / byChance);
  expect(unsure[4]).toBeGreaterThan(3);
  expect(Math.max(...unsure.filter((_, person) => person !== 4))).toBeLessThan(1.3);
});

test.each([0, 1])('where none or all were found, that is expected of each (%d)', (share) => {
  const jobs = drawnFleet({ ...usual, seed: 9 });
  const outcomes = new Uint8Array(jobs.count).fill(share === 0 ? skillOutcome.clean : skillOutcome.found);
  outcomes[3] = skillOutcome.missing;
  const { chances, comparisons } = expectation(jobs, outcomes, evacuation.factors);
  expect(chances[3]).toBeNaN();
  expect(new Set(chances.filter((_, job) => job !== 3))).toEqual(new Set([share]));
  expect(comparisons('crew').every(({ byChance }) => byChance === 0)).toBe(true);
});
