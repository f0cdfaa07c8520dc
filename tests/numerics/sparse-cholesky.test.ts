import { expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { solveSymmetric } from '../../src/numerics/solve-symmetric.ts';
import { SparseCholesky } from '../../src/numerics/sparse-cholesky.ts';

/** A matrix with few entries beside a heavy diagonal, and the same in full. */
function drawn(seed: number, size: number, others: number) {
  const random = new Random(seed);
  const any = () => Math.floor(random.uniform(0, size));
  const entries: [row: number, column: number, value: number][] = Array.from({ length: size }, (_, row) => [
    row,
    row,
    random.uniform(3, 9) + others,
  ]);
  for (let entry = 0; entry < others * size; entry += 1) {
    const [row, column] = [any(), any()];
    if (row !== column) entries.push([row, column, random.uniform(-0.5, 0.5)]);
  }
  const full = new Float64Array(size * size);
  for (const [row, column, value] of entries) {
    full[row * size + column] += value;
    if (row !== column) full[column * size + row] += value;
  }
  return {
    full,
    shape: {
      size,
      rows: Int32Array.from(entries, ([row]) => row),
      columns: Int32Array.from(entries, ([, column]) => column),
    },
    values: Float64Array.from(entries, ([, , value]) => value),
    right: Float64Array.from({ length: size }, () => random.normal(0, 1)),
  };
}

test.each([
  [1, 1, 0],
  [2, 12, 1],
  [3, 40, 2],
  [4, 90, 4],
])('solves and inverts as the full method does (%i)', (seed, size, others) => {
  const { full, shape, values, right } = drawn(seed, size, others);
  const sparse = new SparseCholesky(shape);
  expect(sparse.factor(values)).toBe(true);
  const wanted = right.slice();
  expect(solveSymmetric(full.slice(), wanted)).toBe(true);
  for (const [row, value] of sparse.solve(right).entries()) expect(value).toBeCloseTo(wanted[row], 11);
  const { diagonal, entries } = sparse.inverse();
  for (let column = 0; column < size; column += 1) {
    const unit = new Float64Array(size);
    unit[column] = 1;
    solveSymmetric(full.slice(), unit);
    expect(diagonal[column]).toBeCloseTo(unit[column], 11);
    for (const [entry, row] of shape.rows.entries())
      if (shape.columns[entry] === column) expect(entries[entry]).toBeCloseTo(unit[row], 11);
  }
});

test('one shape serves many values', () => {
  const { full, shape, values, right } = drawn(9, 30, 2);
  const sparse = new SparseCholesky(shape);
  sparse.factor(values.map((value) => 2 * value));
  sparse.factor(values);
  const wanted = right.slice();
  solveSymmetric(full, wanted);
  for (const [row, value] of sparse.solve(right).entries()) expect(value).toBeCloseTo(wanted[row], 11);
});

test('a star does not fill up: what all others meet goes last', () => {
  const size = 500;
  const rows = Int32Array.from({ length: 2 * size - 1 }, (_, entry) => (entry < size ? entry : 0));
  const columns = Int32Array.from({ length: 2 * size - 1 }, (_, entry) => (entry < size ? entry : entry - size + 1));
  expect(new SparseCholesky({ size, rows, columns }).fill).toBe(size - 1);
});

test('a matrix that is not positive definite has no factor', () => {
  const shape = { size: 2, rows: Int32Array.of(0, 1, 1), columns: Int32Array.of(0, 0, 1) };
  expect(new SparseCholesky(shape).factor(Float64Array.of(1, 2, 1))).toBe(false);
});
