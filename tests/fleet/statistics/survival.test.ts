import { describe, expect, test } from 'vitest';
import { kaplanMeier, stepAt } from '../../../src/fleet/statistics/kaplan-meier.ts';
import { logRank } from '../../../src/fleet/statistics/log-rank.ts';
import { Random } from '../../../src/numerics/random.ts';
import { referenceRows } from '../../reference-rows.ts';

const rows = referenceRows('freireich-1963');
const watched = (of: readonly Record<string, number>[]) => ({
  stops: Float64Array.from(of, (row) => row.stop_weeks),
  events: Uint8Array.from(of, (row) => row.event),
});

describe('Kaplan and Meier’s share', () => {
  const drug = kaplanMeier(watched(rows.filter((row) => row.placebo === 0)));

  test('reproduces the drug of Freireich 1963, shares and Greenwood’s errors', () => {
    const published = referenceRows('freireich-1963', 'survival.csv');
    expect(drug.map(({ time, atRisk, events }) => [time, atRisk, events])).toEqual(
      published.map((row) => [row.time_weeks, row.at_risk, row.events]),
    );
    for (const [at, row] of published.entries()) {
      expect(drug[at].share).toBeCloseTo(row.share, 4);
      // The interval is one of log(−log), from which the error follows.
      const { share, low, high } = drug[at];
      const half = (Math.log(-Math.log(low)) - Math.log(-Math.log(high))) / 2;
      expect((half / 1.959964) * share * Math.abs(Math.log(share))).toBeCloseTo(row.standard_error, 4);
    }
  });

  test('reproduces the placebo of Freireich 1963, where nobody is censored: the share of all', () => {
    const placebo = kaplanMeier(watched(rows.filter((row) => row.placebo === 1)));
    for (const [time, share] of [
      [1, 0.9048],
      [4, 0.6667],
      [8, 0.381],
      [12, 0.1905],
      [22, 0.0476],
      [23, 0],
    ])
      expect(stepAt(placebo, time)?.share).toBeCloseTo(share, 4);
    expect(stepAt(placebo, 0.5)).toBeUndefined();
  });

  test('rows that enter late count from then on', () => {
    const steps = kaplanMeier({
      entries: Float64Array.of(-1, 3, -1),
      stops: Float64Array.of(2, 5, 5),
      events: Uint8Array.of(1, 1, 0),
    });
    expect(steps.map(({ time, atRisk, share }) => [time, atRisk, share])).toEqual([
      [2, 2, 0.5],
      [5, 2, 0.25],
    ]);
  });

  test('with weights it finds the share although who is likeliest to have the event is taken away', () => {
    const random = new Random(8);
    const of = Array.from({ length: 40_000 }, () => {
      const isBad = random.chance(0.3);
      const event = random.exponential(isBad ? 100 : 800);
      // Bad ones are taken away at a known rate.
      const gone = isBad ? random.exponential(60) : 1e9;
      return { isBad, stop: Math.min(event, gone, 100), event: event <= Math.min(gone, 100) };
    });
    const survival = {
      stops: Float64Array.from(of, ({ stop }) => stop),
      events: Uint8Array.from(of, ({ event }) => Number(event)),
    };
    const truth = 0.3 * Math.exp(-1) + 0.7 * Math.exp(-1 / 8);
    const weighted = kaplanMeier({ ...survival, weightAt: (row, time) => (of[row].isBad ? Math.exp(time / 60) : 1) });
    const plain = kaplanMeier(survival);
    expect(weighted.at(-1)?.share).toBeCloseTo(truth, 1.7);
    expect((plain.at(-1)?.share ?? 0) - truth).toBeGreaterThan(0.04);
  }, 60_000);
});

describe('the log-rank test', () => {
  const isPlacebo = Uint8Array.from(rows, (row) => row.placebo);

  test('reproduces Freireich 1963', () => {
    const drug = logRank(
      watched(rows),
      isPlacebo.map((placebo) => 1 - placebo),
    );
    expect(drug.observed).toBe(9);
    expect(drug.expected).toBeCloseTo(19.2505, 4);
    expect(drug.variance).toBeCloseTo(6.25696, 5);
    expect(drug.statistic).toBeCloseTo(16.793, 3);
    expect(logRank(watched(rows), isPlacebo).statistic).toBeCloseTo(drug.statistic, 9);
    expect(drug.chance).toBeCloseTo(4.17e-5, 6);
  });

  test('within strata each group is held against its own', () => {
    const twice = [...rows, ...rows];
    const strata = Int32Array.from(twice, (_, at) => Number(at >= rows.length));
    const both = logRank(
      { ...watched(twice), strata },
      Uint8Array.from(twice, (row) => row.placebo),
    );
    expect(both.expected).toBeCloseTo(2 * logRank(watched(rows), isPlacebo).expected, 9);
  });

  test('says nothing where one group has nobody', () => {
    expect(logRank(watched(rows), new Uint8Array(rows.length)).statistic).toBeNaN();
  });
});
