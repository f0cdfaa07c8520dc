import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { bendProfile } from '../../src/traces/bend-profile.ts';
import { type Kink, upwardKink } from '../../src/traces/upward-kink.ts';

/** A curve with a known bend at sample 300, every 2 s, with white noise. */
function curve(
  after: (sinceS: number) => number,
  noise: number,
  seed = 1,
  before: (untilS: number) => number = () => 0,
) {
  const random = new Random(seed);
  const timesS = Float64Array.from({ length: 600 }, (_, index) => 2 * index);
  const values = timesS.map((at) => (at > 600 ? after(at - 600) : before(600 - at)) + random.normal(0, noise));
  return { timesS, values };
}

const kinkOf = ({ timesS, values }: ReturnType<typeof curve>, noise: number): Kink | undefined =>
  upwardKink(timesS, values, 0, values.length, noise);

describe('upwardKink', () => {
  test.each([
    ['a jump', () => 0.5, 1],
    ['a jump that a gauge with lag shows', (s: number) => 0.5 * (1 - Math.exp(-s / 2)), 2],
    ['a steady climb', (s: number) => 0.004 * s, 6],
    ['a climb that levels off', (s: number) => 0.4 * (1 - Math.exp(-s / 60)), 3],
    ['a slow climb, 3 % in the whole', (s: number) => 0.00005 * s, 110],
  ])('finds %s', (_, after, withinSamples) => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const kink = kinkOf(curve(after, 0.005, seed), 0.005);
      expect(Math.abs((kink?.index ?? Number.NaN) - 300)).toBeLessThanOrEqual(withinSamples);
    }
  });

  test('finds it behind a fall that still goes on', () => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const kink = kinkOf(
        curve(
          (s) => 0.001 * s,
          0.005,
          seed,
          (until) => 0.0008 * until,
        ),
        0.005,
      );
      expect(Math.abs((kink?.index ?? Number.NaN) - 300)).toBeLessThanOrEqual(8);
    }
  });

  test('the interval holds the true place, nineteen times in twenty', () => {
    let held = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const kink = kinkOf(
        curve((s) => 0.0008 * s, 0.005, seed),
        0.005,
      );
      if (kink !== undefined && kink.lowIndex <= 300 && kink.highIndex >= 300) held += 1;
    }
    expect(held).toBeGreaterThanOrEqual(190);
  });

  test.each([
    ['flat', () => 0, () => 0],
    ['a fall that levels off', () => 0, (until: number) => 0.002 * until],
    ['a fall to the end', (s: number) => -0.0005 * s, (until: number) => 0.0005 * until],
    ['a jump down', () => -0.5, () => 0],
  ])('finds nothing in %s', (_, after, before) => {
    for (let seed = 1; seed <= 25; seed += 1) expect(kinkOf(curve(after, 0.005, seed, before), 0.005)).toBeUndefined();
  });

  test('steps of a coarse gauge on a falling curve are no kink', () => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const { timesS, values } = curve(
        (s) => -0.0001 * s,
        0.004,
        seed,
        (until) => 0.0001 * until,
      );
      const stepped = values.map((value) => Math.round(value / 0.04) * 0.04);
      expect(upwardKink(timesS, stepped, 0, stepped.length, 0.012, 10)).toBeUndefined();
    }
  });

  test('too few samples show nothing', () => {
    const { timesS, values } = curve(() => 0.5, 0);
    expect(upwardKink(timesS, values, 298, 305, 0.005)).toBeUndefined();
  });
});

describe('bendProfile', () => {
  test('fits best at the bend, to the noise that there is', () => {
    const { timesS, values } = curve((s) => 0.002 * s, 0.005, 4);
    const search = { from: 0, to: 600, low: 285, high: 315, reachS: 60 };
    const profile = bendProfile(timesS, values, search, 0.005);
    expect(profile?.firstIndex).toBe(285);
    expect(Math.abs((profile?.best ?? Number.NaN) - 15)).toBeLessThanOrEqual(6);
    // Squared residuals in units of the variance: one each, less the five parameters; standard deviation √(2n), n = 91.
    expect(profile?.count).toBe(91);
    expect(Math.abs((profile?.misfits[profile.best] ?? Number.NaN) - 86)).toBeLessThan(3 * Math.sqrt(2 * 91));
  });

  test('no place, no profile', () => {
    const { timesS, values } = curve(() => 1, 0.005);
    expect(bendProfile(timesS, values, { from: 0, to: 600, low: 599, high: 599, reachS: 120 }, 0.005)).toBeUndefined();
    expect(
      bendProfile(timesS, values, { from: 300, to: 303, low: 300, high: 302, reachS: 120 }, 0.005),
    ).toBeUndefined();
  });
});
