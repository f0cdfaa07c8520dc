import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PartialProfile } from '../../src/numerics/partial-profile.ts';
import { Random } from '../../src/numerics/random.ts';

/** y, the profiled column, and some more, as rows of data; all of the same length. */
type Columns = readonly Float64Array[];

const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, index) => sum + value * b[index], 0);
const productsOf = (columns: Columns) => Float64Array.from(columns.flatMap((a) => columns.map((b) => dot(a, b))));
const profileOf = (columns: Columns) => new PartialProfile(columns.length, productsOf(columns));
const unbounded = Array.from({ length: 8 }, () => Number.POSITIVE_INFINITY);

/** Columns that point much the same way, as the parts of a rise do. */
function drawColumns(seed: number, others: number): Columns {
  const random = new Random(seed);
  const rows = 6 + (seed % 7);
  const base = Float64Array.from({ length: rows }, () => random.uniform(0, 1));
  const draw = () => base.map((value) => value + random.normal(0, 0.6));
  const columns = Array.from({ length: others + 1 }, draw);
  const y = base.map(() => random.normal(0, 0.5));
  for (const column of columns) {
    const size = random.uniform(-0.5, 1);
    for (let row = 0; row < rows; row += 1) y[row] += size * column[row];
  }
  return [y, ...columns];
}

/** Every set of the places from 2 on. */
function subsets(columns: Columns): number[][] {
  const places = columns.slice(2).map((_, index) => index + 2);
  return places.reduce<number[][]>((sets, place) => [...sets, ...sets.map((set) => [...set, place])], [[]]);
}

/** The least of the pieces of all sets that hold a k. */
function envelopeAt(columns: Columns, bounds: readonly number[], k: number): number {
  const profile = profileOf(columns);
  let least = Number.POSITIVE_INFINITY;
  for (const set of subsets(columns))
    if (profile.solve(set, bounds) && k >= profile.low && k <= profile.high)
      least = Math.min(least, profile.least + profile.curvature * (k - profile.centre) ** 2);
  return least;
}

/** Least squares of y − k·x with every coefficient within its bounds, by moving one coefficient at a time to its best. */
function boundedLeastSquares(columns: Columns, bounds: readonly number[], k: number) {
  const [y, x, ...others] = columns;
  const residual = y.map((value, row) => value - k * x[row]);
  const coefficients = others.map(() => 0);
  for (let round = 0, moved = 1; round < 20_000 && moved > 1e-13; round += 1) {
    moved = 0;
    for (const [index, column] of others.entries()) {
      const best = coefficients[index] + dot(residual, column) / dot(column, column);
      const step = Math.min(bounds[index + 2], Math.max(0, best)) - coefficients[index];
      coefficients[index] += step;
      for (let row = 0; row < residual.length; row += 1) residual[row] -= step * column[row];
      moved = Math.max(moved, Math.abs(step));
    }
  }
  return { misfit: dot(residual, residual), coefficients };
}

const problems = fc.record({ seed: fc.integer({ min: 1, max: 1e6 }), others: fc.integer({ min: 0, max: 4 }) });
const grid = [0, 0.05, 0.2, 0.4, 0.7, 1, 1.5, 3];

describe('the least over all sets', () => {
  test('is non-negative least squares, at every k', () => {
    fc.assert(
      fc.property(problems, ({ seed, others }) => {
        const columns = drawColumns(seed, others);
        for (const k of grid) {
          const { misfit } = boundedLeastSquares(columns, unbounded, k);
          expect(Math.abs(envelopeAt(columns, unbounded, k) - misfit)).toBeLessThan(1e-9 * dot(columns[0], columns[0]));
        }
      }),
      { seed: 11, numRuns: 150 },
    );
  });

  test('with upper bounds is the bounded one wherever that stands at none of them, and never below it', () => {
    let compared = 0;
    fc.assert(
      fc.property(problems, ({ seed, others }) => {
        const columns = drawColumns(seed, others);
        const random = new Random(seed, 1);
        const bounds = columns.map(() => random.uniform(0.2, 1.5));
        for (const k of grid) {
          const { misfit, coefficients } = boundedLeastSquares(columns, bounds, k);
          const envelope = envelopeAt(columns, bounds, k);
          const tolerance = 1e-9 * dot(columns[0], columns[0]);
          expect(envelope).toBeGreaterThan(misfit - tolerance);
          if (coefficients.some((size, index) => size > bounds[index + 2] - 1e-9)) continue;
          compared += 1;
          expect(envelope).toBeLessThan(misfit + tolerance);
        }
      }),
      { seed: 12, numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(600);
  });
});

describe('a piece', () => {
  /** Runs over the solvable sets of drawn problems. */
  const everyPiece = (
    seed: number,
    check: (profile: PartialProfile, set: number[], columns: Columns, bounds: readonly number[]) => void,
  ) =>
    fc.assert(
      fc.property(problems, (problem) => {
        const columns = drawColumns(problem.seed, problem.others);
        const random = new Random(problem.seed, 2);
        const bounds = columns.map(() => (random.chance(0.5) ? random.uniform(0.2, 1.5) : Number.POSITIVE_INFINITY));
        const profile = profileOf(columns);
        for (const set of subsets(columns)) if (profile.solve(set, bounds)) check(profile, set, columns, bounds);
      }),
      { seed, numRuns: 100 },
    );
  const inRange = ({ low, high }: PartialProfile) => [low, Math.min(high, low + 1), Math.min(high, low + 5)];
  const coefficient = ({ offsets, slopes }: PartialProfile, index: number, k: number) =>
    offsets[index] - k * slopes[index];

  test('says what its coefficients are: they leave the misfit that it states', () => {
    everyPiece(13, (profile, set, columns) => {
      for (const k of inRange(profile)) {
        const residual = columns[0].map((y, row) =>
          set.reduce(
            (rest, place, index) => rest - coefficient(profile, index, k) * columns[place][row],
            y - k * columns[1][row],
          ),
        );
        const stated = profile.least + profile.curvature * (k - profile.centre) ** 2;
        expect(Math.abs(stated - dot(residual, residual))).toBeLessThan(1e-9 * (1 + stated));
      }
    });
  });

  test('keeps every coefficient within its bounds over its range, and no further', () => {
    everyPiece(14, (profile, set, _, bounds) => {
      const { low, high } = profile;
      expect(low).toBeGreaterThanOrEqual(0);
      expect(high).toBeGreaterThanOrEqual(low);
      const kept = (k: number, slack: number) =>
        set.every((place, index) => {
          const size = coefficient(profile, index, k);
          return size >= -slack && size <= bounds[place] + slack;
        });
      for (const k of inRange(profile)) expect(kept(k, 1e-9 * (1 + k))).toBe(true);
      if (low > 0) expect(kept(low * (1 - 1e-6) - 1e-6, 0)).toBe(false);
      if (Number.isFinite(high)) expect(kept(high * (1 + 1e-6) + 1e-6, 0)).toBe(false);
    });
  });

  test('has its least at the centre, or at the end of the range next to it', () => {
    everyPiece(15, (profile) => {
      const { least, curvature, centre, low, high, leastWithin } = profile;
      expect(curvature).toBeGreaterThan(0);
      expect(leastWithin).toBeGreaterThanOrEqual(least);
      if (centre >= low && centre <= high) expect(leastWithin).toBe(least);
      for (const k of inRange(profile))
        expect(least + curvature * (k - centre) ** 2).toBeGreaterThanOrEqual(leastWithin - 1e-12);
    });
  });

  test('has a range that looser bounds never narrow', () => {
    everyPiece(16, (profile, set, columns, bounds) => {
      const looser = profileOf(columns);
      expect(
        looser.solve(
          set,
          bounds.map((bound) => 1.5 * bound),
        ),
      ).toBe(true);
      expect(looser.low).toBeLessThanOrEqual(profile.low);
      expect(looser.high).toBeGreaterThanOrEqual(profile.high);
      expect(looser.least).toBe(profile.least);
    });
  });
});

describe('refused', () => {
  const y = Float64Array.of(1, 3, 2, 5, 4);
  const x = Float64Array.of(0, 1, 2, 3, 4);
  const bent = Float64Array.of(0, 1, 1.5, 1.75, 1.875);

  test.each<[string, Columns, number[]]>([
    ['a column twice', [y, x, bent, bent.slice()], [2, 3]],
    ['a multiple of another', [y, x, bent, bent.map((value) => -3 * value)], [2, 3]],
    ['a sum of the others', [y, x, bent, y.slice(), bent.map((value, row) => value + y[row])], [2, 3, 4]],
    ['an empty column', [y, x, new Float64Array(5)], [2]],
    ['an empty profiled column', [y, new Float64Array(5)], []],
    ['a profiled column that the others make up', [y, x, bent, x.map((value, row) => value - bent[row])], [2, 3]],
  ])('%s', (_, columns, set) => {
    expect(profileOf(columns).solve(set, unbounded)).toBe(false);
  });

  test('a column whose coefficient lies outside its bounds at every k', () => {
    const columns = (size: number) => [Float64Array.of(2, size, 0), Float64Array.of(1, 0, 0), Float64Array.of(0, 1, 0)];
    expect(profileOf(columns(-1)).solve([2], unbounded)).toBe(false);
    expect(profileOf(columns(1)).solve([2], unbounded)).toBe(true);
    expect(profileOf(columns(1)).solve([2], [0, 0, 1])).toBe(true);
    expect(profileOf(columns(1)).solve([2], [0, 0, 0.99])).toBe(false);
  });

  test('the same object solves another set after a refusal as if there had been none', () => {
    const columns = [y, x, bent, bent.slice()];
    const profile = profileOf(columns);
    expect(profile.solve([2, 3], unbounded)).toBe(false);
    expect(profile.solve([2], unbounded)).toBe(true);
    const fresh = profileOf(columns);
    fresh.solve([2], unbounded);
    expect([profile.low, profile.high, profile.centre, profile.least, profile.offsets[0]]).toEqual([
      fresh.low,
      fresh.high,
      fresh.centre,
      fresh.least,
      fresh.offsets[0],
    ]);
  });
});
