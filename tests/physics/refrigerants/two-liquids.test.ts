import { describe, expect, test } from 'vitest';
import { PhaseBoundary } from '../../../src/physics/equations/phase-boundary.ts';
import { phaseDensity } from '../../../src/physics/equations/phase-density.ts';
import { phaseState } from '../../../src/physics/equations/phase-state.ts';
import { composeRefrigerant, saturationAtTemperature, vapourDensity } from '../../../src/physics/index.ts';

describe('two liquids', () => {
  const propaneShare = (share: number) => {
    const [propane, r134a] = [share * 0.04409562, (1 - share) * 0.102032];
    return composeRefrigerant('propane and R-134a', {
      'R-290': propane / (propane + r134a),
      'R-134a': r134a / (propane + r134a),
    });
  };

  // Every liquid composition tried against the tangent plane of the bubble point, by a scan of one in a hundred.
  test.each([
    [0.61, 200],
    [0.61, 230],
    [0.61, 240],
    [0.4, 230],
    [0.4, 240],
    [0.8, 215],
    [0.8, 230],
  ])('a liquid of %d propane in R-134a at %d K is refused where a scan finds that it parts', (share, temperatureK) => {
    const blend = propaneShare(share);
    const point = new PhaseBoundary(blend, 'bubble').at('temperatureK', temperatureK);
    if (!point.converged) throw new Error('no bubble point');
    let deepest = 0;
    for (let w = 0.01; w < 0.995; w += 0.01) {
      const trial = [w, 1 - w];
      const density = phaseDensity(blend, 'liquid', temperatureK, point.pressurePa, trial);
      const { lnFugacity } = phaseState(blend, temperatureK, density, trial);
      const distance = trial.reduce((sum, x, i) => sum + x * (lnFugacity[i] - point.lnFugacity[i]), 0);
      deepest = Math.min(deepest, distance);
    }
    const saturation = saturationAtTemperature(blend, temperatureK);
    expect(saturation.converged).toBe(deepest > -1e-6);
    expect(!saturation.converged && saturation.reason).toBe(deepest > -1e-6 ? false : 'two-liquids');
  });

  // The dew point of R-290/R-32 (30/70 by mass) is none there; its vapour is stable up to some 0.7 of that pressure.
  test.each([180, 195])(
    'a vapour above what two liquids allow at %d K is refused, a thin one is not',
    (temperatureK) => {
      const blend = composeRefrigerant('propane and R-32', { 'R-290': 0.3, 'R-32': 0.7 });
      const saturation = saturationAtTemperature(blend, temperatureK);
      if (saturation.converged) throw new Error('a saturation');
      const found = vapourDensity(blend, temperatureK, 0.95 * saturation.lastPa);
      expect(!found.converged && found.reason).toBe('two-liquids');
      expect(vapourDensity(blend, temperatureK, 0.4 * saturation.lastPa).converged).toBe(true);
    },
  );
});
