import type { Random } from '../../numerics/random.ts';
import { shownPa } from '../recorder.ts';
import type { TestGauge } from '../standing-test.ts';
import type { VacuumGauge } from '../vacuum-gauges.ts';

/** What somebody needs who makes a copy look like another reading of the same gauge. */
export interface CopiedGauge {
  /** What the gauge shows of a pressure [Pa]. */
  readonly shown: (pa: number) => number;
  /** Pressures with noise like the gauge’s own, not rounded [Pa]. */
  readonly noisy: (pa: Float64Array, random: Random) => Float64Array;
}

export function vacuumGauge(gauge: VacuumGauge): CopiedGauge {
  // A copy is made from what was shown: what was above the range stays so, and what a factor lifts above it is written down.
  const endless = { ...gauge, rangeMaxPa: Number.MAX_VALUE };
  return {
    shown: (pa) => (Number.isFinite(pa) ? shownPa(endless, pa) : pa),
    noisy(pa, random) {
      let noise = 0;
      return pa.map((value) => {
        noise = 0.3 * noise + random.normal(0, gauge.noiseRatio * 0.954);
        return value * (1 + noise);
      });
    },
  };
}

export function testPressureGauge({ stepPa, noisePa }: TestGauge): CopiedGauge {
  return {
    shown: (pa) => (Number.isFinite(pa) ? Math.round(pa / stepPa) * stepPa : pa),
    noisy: (pa, random) => pa.map((value) => value + random.normal(0, noisePa)),
  };
}
