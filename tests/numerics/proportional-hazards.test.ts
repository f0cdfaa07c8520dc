import { describe, expect, test } from 'vitest';
import { fitProportionalHazards, type HazardRows } from '../../src/numerics/proportional-hazards.ts';
import { RiskSets } from '../../src/numerics/risk-sets.ts';
import { referenceRows } from '../reference-rows.ts';

/** Rows whose columns are all given. */
function hazardRows(columns: readonly (readonly number[])[], of: Omit<HazardRows, 'width' | 'columns' | 'values'>) {
  const width = columns[0]?.length ?? 0;
  return {
    ...of,
    width,
    columns: Int32Array.from(columns.flatMap((row) => row.map((_, at) => at))),
    values: Float64Array.from(columns.flat()),
  };
}

const errors = (covariance: Float64Array, size: number): number[] =>
  Array.from({ length: size }, (_, at) => Math.sqrt(covariance[at * size + at]));

describe('the partial likelihood', () => {
  const rows = referenceRows('freireich-1963');
  const of = {
    stops: Float64Array.from(rows, (row) => row.stop_weeks),
    events: Uint8Array.from(rows, (row) => row.event),
  };

  test('reproduces the fit of Freireich 1963 by the drug alone, from memory of what packages print', () => {
    const fit = fitProportionalHazards(
      hazardRows(
        rows.map((row) => [row.placebo]),
        of,
      ),
      new Float64Array(1),
    );
    expect(fit?.isConverged).toBe(true);
    expect(fit?.coefficients[0]).toBeCloseTo(1.5721, 4);
    expect(errors(fit?.covariance ?? new Float64Array(), 1)[0]).toBeCloseTo(0.4124, 4);
  });

  test('reproduces the fit of Freireich 1963 by drug and white cells, from memory of what packages print', () => {
    const fit = fitProportionalHazards(
      hazardRows(
        rows.map((row) => [row.placebo, row.log_white_cells]),
        of,
      ),
      new Float64Array(2),
    );
    expect([...(fit?.coefficients ?? [])]).toEqual([expect.closeTo(1.3861, 4), expect.closeTo(1.6909, 4)]);
    expect(errors(fit?.covariance ?? new Float64Array(), 2)).toEqual([
      expect.closeTo(0.4248, 4),
      expect.closeTo(0.3359, 4),
    ]);
  });

  const drawn = referenceRows('scipy-proportional-hazards');
  const strata = hazardRows(
    drawn.map((row) => [row.first, row.second, row.third]),
    {
      entries: Float64Array.from(drawn, (row) => row.entry),
      stops: Float64Array.from(drawn, (row) => row.stop),
      events: Uint8Array.from(drawn, (row) => row.event),
      strata: Int32Array.from(drawn, (row) => row.stratum),
    },
  );

  test.each(referenceRows('scipy-proportional-hazards', 'fits.csv'))(
    'reproduces the independent fit with strata, late entries, ties and a penalty of $penalty',
    (row) => {
      const fit = fitProportionalHazards(strata, new Float64Array(3).fill(row.penalty));
      expect(fit?.logLikelihood).toBeCloseTo(row.log_likelihood, 5);
      expect([...(fit?.coefficients ?? [])]).toEqual(
        [row.first, row.second, row.third].map((value) => expect.closeTo(value, 4)),
      );
      expect(errors(fit?.covariance ?? new Float64Array(), 3)).toEqual(
        [row.error_first, row.error_second, row.error_third].map((value) => expect.closeTo(value, 4)),
      );
    },
  );

  test('is the same whatever order the rows come in', () => {
    const order = [...drawn.keys()].reverse();
    const turned = {
      width: 3,
      columns: strata.columns,
      values: Float64Array.from(order.flatMap((row) => [...strata.values.subarray(3 * row, 3 * row + 3)])),
      entries: Float64Array.from(order, (row) => strata.entries?.[row] ?? 0),
      stops: Float64Array.from(order, (row) => strata.stops[row]),
      events: Uint8Array.from(order, (row) => strata.events[row]),
      strata: Int32Array.from(order, (row) => strata.strata?.[row] ?? 0),
    };
    const [one, other] = [strata, turned].map((all) => fitProportionalHazards(all, new Float64Array(3)));
    for (const [at, value] of (one?.coefficients ?? []).entries())
      expect(other?.coefficients[at]).toBeCloseTo(value, 9);
  });

  test('a column that no event has runs away without a penalty only', () => {
    const none = hazardRows([[1], [1], [0], [0]], {
      stops: Float64Array.of(5, 6, 1, 2),
      events: Uint8Array.of(0, 0, 1, 1),
    });
    const fit = fitProportionalHazards(none, Float64Array.of(0.5));
    expect(fit?.isConverged).toBe(true);
    expect(fit?.coefficients[0]).toBeLessThan(0);
    expect(fit?.coefficients[0]).toBeGreaterThan(-3);
    expect(fitProportionalHazards(none, Float64Array.of(0))?.isConverged).not.toBe(true);
  });

  test('two columns that are the same cannot be told apart', () => {
    const twins = hazardRows(
      [
        [1, 1],
        [0, 0],
        [1, 1],
        [0, 0],
      ],
      {
        stops: Float64Array.of(1, 2, 3, 4),
        events: Uint8Array.of(1, 1, 1, 1),
      },
    );
    expect(fitProportionalHazards(twins, new Float64Array(2))).toBeUndefined();
  });
});

test('who enters when something happens is not at risk of it, who is last watched then is', () => {
  const seen: string[] = [];
  const inside = new Set<number>();
  const rows = {
    entries: Float64Array.of(-1, 2, -1, 5),
    stops: Float64Array.of(2, 4, 4, 5),
    events: Uint8Array.of(1, 1, 0, 1),
  };
  new RiskSets(rows).walk({
    add: (row) => inside.add(row),
    remove: (row) => inside.delete(row),
    events: (time, happened) =>
      seen.push(`${time}: ${[...inside].toSorted((a, b) => a - b).join(' ')} (${happened.join(' ')})`),
  });
  expect(seen).toEqual(['4: 1 2 (1)', '2: 0 2 (0)']);
});
