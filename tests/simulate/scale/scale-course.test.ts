import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { drawChargeFlow } from '../../../src/simulate/scale/charge-flow.ts';
import { unseenKg } from '../../../src/simulate/scale/hose-pull.ts';
import { drawScaleCourse } from '../../../src/simulate/scale/scale-course.ts';
import { askedScaleUpsets, drawScaleUpsets, type ScaleUpset } from '../../../src/simulate/scale/scale-upsets.ts';

const draw = (seed: number, names?: readonly ScaleUpset[], massKg = 0.8) => {
  const random = new Random(seed);
  const upsets = names === undefined ? drawScaleUpsets(random) : askedScaleUpsets(random, names);
  const next = { afterKg: 0.3, cylinderKg: 14 };
  return { upsets, course: drawScaleCourse({ random, massKg, cylinderKg: 9, scaleStepKg: 0.001, upsets, next }) };
};
const seeds = Array.from({ length: 300 }, (_, index) => index + 1);

describe('drawScaleCourse', () => {
  test('what stands on the scale falls by what is drawn, whatever upsets the display', () => {
    for (const seed of seeds) {
      const { course } = draw(seed);
      const changed = course.upsets.includes('cylinder-change');
      expect(course.loadKg(0)).toBe(9);
      expect(course.loadKg(course.flowFromS)).toBe(9);
      expect(course.loadKg(course.flowToS)).toBeCloseTo(changed ? 14 - 0.5 : 9 - 0.8, 9);
      expect(course.loadKg(course.durationS)).toBeCloseTo(course.loadKg(course.flowToS), 9);
    }
  });

  test('the drops that are read add up to what is drawn, less what a hose hides', () => {
    for (const seed of seeds) {
      const { course, upsets } = draw(seed);
      if (upsets.names.includes('drift')) continue;
      const dropKg = course.entries.reduce((sum, { startKg, endKg }) => sum + startKg - endKg, 0);
      expect(Math.abs(dropKg + unseenKg(upsets.hose) - 0.8)).toBeLessThan(0.015);
    }
  });

  test('two readings where the cylinder is changed: the first down to what it had to give', () => {
    for (const seed of seeds.slice(0, 50)) {
      const { entries } = draw(seed, ['cylinder-change']).course;
      expect(entries.map(({ cylinder }) => cylinder)).toEqual([0, 1]);
      const [first, second] = entries.map(({ startKg, endKg }) => startKg - endKg) as [number, number];
      expect(Math.abs(first - 0.3)).toBeLessThan(0.01);
      expect(Math.abs(second - 0.5)).toBeLessThan(0.01);
    }
  });
});

describe('drawChargeFlow', () => {
  const flows = seeds.map((seed) => drawChargeFlow({ random: new Random(seed), massKg: 0.8 }));

  test('gives the mass in all, and hardly ever lets some back', () => {
    let back = 0;
    for (const { goneKg, durationS } of flows) {
      expect(goneKg(0)).toBe(0);
      expect(goneKg(durationS + 1)).toBeCloseTo(0.8, 9);
      const course = Array.from({ length: 200 }, (_, index) => goneKg((durationS * index) / 200));
      if (course.some((kg, index) => kg < (course[index - 1] ?? 0) - 1e-9)) back++;
    }
    expect(back / flows.length).toBeLessThan(0.03);
  });

  test('begins at 4 to 60 g/s and slackens', () => {
    const firstG = flows.map(({ goneKg }) => goneKg(0.5) * 2000);
    expect(Math.min(...firstG)).toBeGreaterThan(3.8);
    expect(Math.max(...firstG)).toBeLessThan(60);
    for (const { goneKg } of flows) expect(goneKg(4) - goneKg(2)).toBeLessThan(goneKg(2) + 1e-9);
  });

  test('comes in bursts with pauses of 5 to 40 s, on two of three jobs', () => {
    const still = flows.map(({ goneKg, durationS }) => {
      let [most, now] = [0, 0];
      for (let atS = 1; atS < durationS; atS++) {
        now = goneKg(atS) === goneKg(atS - 1) ? now + 1 : 0;
        most = Math.max(most, now);
      }
      return most;
    });
    expect(Math.max(...still)).toBeLessThanOrEqual(40);
    const paused = still.filter((s) => s >= 4).length / still.length;
    expect(paused).toBeGreaterThan(0.55);
    expect(paused).toBeLessThan(0.75);
  });
});
