import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type FollowUps, followUpEnding } from '../../../src/fleet/callbacks/follow-up.ts';
import { lifeTableCounts, stepDays } from '../../../src/fleet/callbacks/life-table-counts.ts';

interface Watched {
  readonly entry: number;
  readonly stop: number;
  readonly called: boolean;
  readonly kind: number;
}

const horizonDays = 365;

const watched = fc
  .record({
    entry: fc.oneof(fc.constant(-1), fc.nat(300)),
    days: fc.nat(364),
    called: fc.boolean(),
    kind: fc.integer({ min: -1, max: 2 }),
  })
  .map(
    ({ entry, days, called, kind }): Watched => ({
      entry,
      stop: Math.min(horizonDays, entry + 1 + days),
      called,
      kind,
    }),
  );

function followed(rows: readonly Watched[]): FollowUps {
  return {
    // Places in the fleet, of which some are not watched.
    jobs: Int32Array.from(rows, (_, at) => 2 * at + 1),
    entries: Float64Array.from(rows, ({ entry }) => entry),
    stops: Float64Array.from(rows, ({ stop }) => stop),
    endings: Uint8Array.from(rows, ({ called, stop }) => {
      if (called) return followUpEnding.callback;
      return stop === horizonDays ? followUpEnding.horizon : followUpEnding.stillWatched;
    }),
    events: Uint8Array.from(rows, ({ called }) => Number(called)),
  };
}

const counted = (rows: readonly Watched[]) => lifeTableCounts(followed(rows), (job) => rows[(job - 1) / 2]?.kind ?? -1);

test('a job is counted on the day it begins, and in the thirty days in which it calls or leaves', () => {
  const one = { entry: -1, stop: 45, called: true, kind: 3 };
  expect(counted([one])).toEqual([
    { kind: 3, step: -1, began: 1, late: 0, left: 0, called: 0 },
    { kind: 3, step: 1, began: 0, late: 0, left: 0, called: 1 },
  ]);
  const stepOf = (stop: number) => counted([{ ...one, stop }]).find(({ called }) => called === 1)?.step;
  expect([0, 1, 30, 31, 60, 61, 365].map(stepOf)).toEqual([0, 0, 0, 1, 1, 2, 12]);
  expect(counted([{ entry: 100, stop: 110, called: false, kind: 0 }])).toEqual([
    { kind: 0, step: 3, began: 0, late: 1, left: 1, called: 0 },
  ]);
});

test('who stays to the horizon was watched all of the last step: it is there, and nobody leaves in it', () => {
  expect(counted([{ entry: -1, stop: horizonDays, called: false, kind: 0 }])).toEqual([
    { kind: 0, step: -1, began: 1, late: 0, left: 0, called: 0 },
    { kind: 0, step: 12, began: 0, late: 0, left: 0, called: 0 },
  ]);
});

test('every job is counted once where it begins and, short of the horizon, once where it ends, by its kind, in its step', () => {
  fc.assert(
    fc.property(fc.array(watched, { maxLength: 60 }), (rows) => {
      const counts = counted(rows);
      for (const { kind, step, ...count } of counts) {
        const isIn = (age: number) => step >= 0 && age > step * stepDays && age <= (step + 1) * stepDays;
        const isInStep = (age: number) => isIn(age) || (step === 0 && age === 0);
        const own = rows.filter((row) => row.kind === kind);
        expect(count).toEqual({
          began: step === -1 ? own.filter(({ entry }) => entry === -1).length : 0,
          late: own.filter(({ entry }) => entry >= 0 && isInStep(entry)).length,
          left: own.filter(({ stop, called }) => !called && stop < horizonDays && isInStep(stop)).length,
          called: own.filter(({ stop, called }) => called && isInStep(stop)).length,
        });
        const stayed = own.filter(({ stop, called }) => !called && stop === horizonDays && isInStep(stop)).length;
        expect(count.began + count.late + count.left + count.called + stayed).toBeGreaterThan(0);
      }
      const sum = counts.reduce(
        (all, { began, late, left, called }) => ({ in: all.in + began + late, out: all.out + left + called }),
        { in: 0, out: 0 },
      );
      const known = rows.filter(({ kind }) => kind >= 0);
      const out = known.filter(({ stop, called }) => called || stop < horizonDays);
      expect(sum).toEqual({ in: known.length, out: out.length });
      // By kind and step, each once.
      const keys = counts.map(({ kind, step }) => 1000 * kind + step);
      expect(keys).toEqual([...new Set(keys)].sort((a, b) => a - b));
    }),
  );
});
