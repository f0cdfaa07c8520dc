import type { TestPlan } from '../../../src/facts/plan/test-plan.ts';
import { toInterchange } from '../../../src/units/unit.ts';

export const micron = toInterchange(1, 'micron');

/** A pressure test and a rise test of 5 L of R-410A, all else as `dryhold plan` assumes it. */
export const plan: TestPlan = {
  volumeL: 5,
  refrigerant: 'R-410A',
  atmospherePa: 101_325,
  pressureTest: {
    testPa: 2_169_752,
    stepPa: 6894.757,
    intervalS: 60,
    temperatureK: 294.26,
    temperatureUncertaintyK: 1.1,
  },
  riseTest: { fromPa: 200 * micron, stepPa: micron, noiseRatio: 0.01, intervalS: 2, pumpedS: 1800 },
};
