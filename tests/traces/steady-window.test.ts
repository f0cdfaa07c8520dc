import { describe, expect, test } from 'vitest';
import { type SteadySignal, steadyWindow } from '../../src/traces/steady-window.ts';

/** Times of a log [s] and a signal along them. */
const times = (lengthS: number, intervalS = 5) =>
  Float64Array.from({ length: Math.floor(lengthS / intervalS) + 1 }, (_, row) => row * intervalS);
const signal = (elapsedS: Float64Array, course: (atS: number) => number): SteadySignal => ({
  values: elapsedS.map(course),
  mostDrift: 1,
});
/** From when to when the steady window is [s]. */
function found(elapsedS: Float64Array, courses: readonly ((atS: number) => number)[], fromS = 0, endFromS = 0) {
  const signals = courses.map((course) => signal(elapsedS, course));
  const window = steadyWindow(elapsedS, signals, fromS, endFromS, elapsedS.length - 1);
  return window && [elapsedS[window.fromRow], elapsedS[window.toRow - 1]];
}
const still = () => 10;

describe('a steady window', () => {
  const elapsedS = times(3600);

  test('is the last quarter of an hour, where all of it stands', () => {
    expect(found(elapsedS, [still, still])).toEqual([2700, 3600]);
  });

  test('is the last that there is, where it moves at the end', () => {
    const [fromS = 0, endS = 0] = found(elapsedS, [(s) => (s < 2400 ? 10 : 10 + (s - 2400) / 60)]) ?? [];
    expect(endS).toBeGreaterThanOrEqual(2400);
    expect(endS).toBeLessThan(2600);
    expect(endS - fromS).toBe(900);
  });

  test('is shorter where only the last minutes stand, but not under five', () => {
    const standsFrom = (fromS: number) => (s: number) => (s < fromS ? 10 + (fromS - s) / 30 : 10);
    const found10 = found(elapsedS, [standsFrom(3000)]) ?? [0, 0];
    expect(found10[1] - found10[0]).toBe(600);
    const found5 = found(elapsedS, [standsFrom(3290)]) ?? [0, 0];
    expect(found5[1] - found5[0]).toBe(300);
    expect(found(elapsedS, [standsFrom(3500)])).toBeUndefined();
  });

  test('holds a valve that hunts, and no ramp', () => {
    expect(found(elapsedS, [(s) => 10 + 3 * Math.sin((2 * Math.PI * s) / 75)])).toEqual([2700, 3600]);
    expect(found(elapsedS, [(s) => 10 + s / 200])).toBeUndefined();
    // 0.9 of what may drift over a quarter of an hour, and 1.1 times that, which a shorter window still takes.
    expect(found(elapsedS, [(s) => (0.9 * s) / 900])).toEqual([2700, 3600]);
    expect(found(elapsedS, [(s) => (1.1 * s) / 900])).toEqual([3000, 3600]);
  });

  test('needs all signals to stand together', () => {
    const ramp = (s: number) => s / 100;
    expect(found(elapsedS, [still, ramp])).toBeUndefined();
    expect(found(elapsedS, [(s) => (s < 1800 ? 10 : s / 100), (s) => (s < 900 ? s / 100 : 10)])).toEqual([
      expect.closeTo(900, -2),
      expect.closeTo(1800, -2),
    ]);
  });

  test('begins and ends no earlier than is allowed', () => {
    expect(found(elapsedS, [still], 3000)).toEqual([3000, 3600]);
    expect(found(elapsedS, [still], 3301)).toBeUndefined();
    expect(found(elapsedS, [(s) => (s < 1500 ? 10 : s / 50)], 0, 1700)).toBeUndefined();
  });

  test('goes by the readings there are: every 10 s, every minute, on rows of their own', () => {
    const own = (every: number, offset: number) => (s: number) => (s % every === offset ? 10 : Number.NaN);
    expect(found(elapsedS, [own(10, 0), own(10, 5)])).toEqual([2700, 3600]);
    expect(found(times(3600, 60), [still])).toEqual([2700, 3600]);
  });

  test('a clamp that was lost, or came on at the very end, leaves none there', () => {
    expect(found(elapsedS, [still, (s) => (s < 2400 ? 10 : Number.NaN)])?.[1]).toBeLessThanOrEqual(2600);
    expect(found(elapsedS, [still, (s) => (s < 3540 ? Number.NaN : 10)])).toBeUndefined();
    expect(found(elapsedS, [still, () => Number.NaN])).toBeUndefined();
  });

  test('is none across a gap that hides most of it', () => {
    const gapped = times(3600).filter((s) => s < 600 || s > 3500);
    expect(found(gapped, [still])?.[1]).toBeLessThan(600);
  });
});
