import { expect, test } from 'vitest';
import { type CrossedCells, crossedEffects } from '../../../src/fleet/statistics/crossed-effects.ts';
import { fitLogistic } from '../../../src/numerics/penalised-logistic.ts';
import { Random } from '../../../src/numerics/random.ts';

interface DrawnFleet {
  readonly cells: CrossedCells;
  readonly truth: readonly Float64Array[];
}

/** Technicians in crews of five, a third of whom worked half of their jobs in the next one; easy and hard jobs. */
function drawnFleet(seed: number, technicians: number, spreads: readonly [number, number], jobsEach = 200): DrawnFleet {
  const random = new Random(seed);
  const crews = technicians / 5;
  const truth = [technicians, crews].map((count, grouping) =>
    Float64Array.from({ length: count }, () => random.normal(0, spreads[grouping])),
  );
  const rows: { technician: number; crew: number; logit: number; jobs: number; found: number }[] = [];
  for (let technician = 0; technician < technicians; technician += 1) {
    const home = technician % crews;
    const crewsOf = random.chance(0.3) ? [home, (home + 1) % crews] : [home];
    for (const crew of crewsOf)
      for (const logit of [-1.5, -0.5]) {
        const jobs = Math.round(jobsEach / (2 * crewsOf.length));
        const chance = 1 / (1 + Math.exp(-(logit + truth[0][technician] + truth[1][crew])));
        let found = 0;
        for (let job = 0; job < jobs; job += 1) if (random.chance(chance)) found += 1;
        rows.push({ technician, crew, logit, jobs, found });
      }
  }
  return {
    truth,
    cells: {
      found: Float64Array.from(rows, ({ found }) => found),
      jobs: Float64Array.from(rows, ({ jobs }) => jobs),
      expectedLogit: Float64Array.from(rows, ({ logit }) => logit),
      units: [Int32Array.from(rows, ({ technician }) => technician), Int32Array.from(rows, ({ crew }) => crew)],
      counts: [technicians, crews],
    },
  };
}

test('under the spreads that it found, effects and deviations are those of the penalised logistic model', () => {
  const { cells } = drawnFleet(1, 60, [0.5, 0.5]);
  const { common, groupings, isConverged } = crossedEffects(cells);
  expect(isConverged).toBe(true);
  const [technicians, crews] = cells.counts;
  const penalties = new Float64Array(technicians + crews + 1);
  penalties.fill(1 / groupings[0].spread ** 2, 0, technicians);
  penalties.fill(1 / groupings[1].spread ** 2, technicians, technicians + crews);
  const fit = fitLogistic(
    {
      width: 3,
      columns: Int32Array.from(
        [...cells.units[0]].flatMap((technician, cell) => [
          technician,
          technicians + cells.units[1][cell],
          technicians + crews,
        ]),
      ),
      successes: cells.found,
      trials: cells.jobs,
      offsets: cells.expectedLogit,
    },
    penalties,
  );
  const effects = [...groupings[0].effects, ...groupings[1].effects, common];
  for (const [at, coefficient] of fit?.coefficients.entries() ?? []) expect(effects[at]).toBeCloseTo(coefficient, 3);
  const deviations = [...groupings[0].deviations, ...groupings[1].deviations];
  for (const [at, deviation] of deviations.entries())
    expect(deviation).toBeCloseTo(Math.sqrt(fit?.covariance[at * penalties.length + at] ?? Number.NaN), 3);
});

test.each([
  [0.5, 0.5],
  [0.5, 0],
  [0, 0.5],
  [0, 0],
])('tells how much technicians (%d) and crews (%d) differ, and holds the truth within its intervals', (...spreads) => {
  let [off, covered, units] = [[0, 0], 0, 0];
  for (let seed = 1; seed <= 8; seed += 1) {
    const { cells, truth } = drawnFleet(seed, 200, spreads);
    const { groupings } = crossedEffects(cells);
    off = off.map((sum, grouping) => sum + (groupings[grouping].spread - spreads[grouping]) / 8);
    for (const [grouping, { effects, deviations }] of groupings.entries())
      for (const [unit, effect] of effects.entries()) {
        units += 1;
        if (Math.abs(effect - truth[grouping][unit]) <= 1.96 * deviations[unit]) covered += 1;
      }
  }
  for (const mean of off) expect(Math.abs(mean)).toBeLessThan(0.05);
  expect(covered / units).toBeGreaterThan(0.93);
});

test('where units never part, both share what is found and stay uncertain', () => {
  // Forty people, each a crew of one; one of them is far off.
  const count = 40;
  const own = Int32Array.from({ length: count }, (_, unit) => unit);
  const random = new Random(3);
  const found = Float64Array.from({ length: count }, (_, unit) =>
    unit === 7 ? 60 : 15 + Math.round(random.normal(0, 6)),
  );
  const alone: CrossedCells = {
    found,
    jobs: new Float64Array(count).fill(100),
    expectedLogit: new Float64Array(count).fill(Math.log(0.2 / 0.8)),
    units: [own, own],
    counts: [count, count],
  };
  const [person, crew] = crossedEffects(alone).groupings;
  expect(person.effects[7]).toBeCloseTo(crew.effects[7], 6);
  expect(person.deviations[7]).toBeGreaterThan(0.5 * person.spread);
  const [only] = crossedEffects({ ...alone, units: [own], counts: [count] }).groupings;
  expect(only.deviations[7]).toBeLessThan(0.5 * only.spread);
  expect(only.effects[7]).toBeGreaterThan(1.5 * person.effects[7]);
});

test('a unit without a job has no effect, and a cell without a unit counts for the others', () => {
  const { cells } = drawnFleet(2, 50, [0.5, 0.5]);
  const units = cells.units.map((of) => of.slice());
  units[1][0] = -1;
  const { groupings, isConverged } = crossedEffects({ ...cells, units, counts: [51, 10] });
  expect(isConverged).toBe(true);
  expect(groupings[0].effects[50]).toBeCloseTo(0, 9);
  expect(groupings[0].deviations[50]).toBeCloseTo(groupings[0].spread, 3);
});

test('without any job nothing is known, and it says so', () => {
  const none = new Float64Array(1);
  const { isConverged, groupings } = crossedEffects({
    found: none,
    jobs: none,
    expectedLogit: none,
    units: [Int32Array.of(0)],
    counts: [1],
  });
  expect(isConverged).toBe(false);
  expect(groupings[0].effects[0]).toBe(0);
});
