import type { Random } from '../../src/numerics/random.ts';
import type { VacuumGauge } from '../../src/simulate/vacuum-gauges.ts';

const MICRON_PA = 0.133322368;

/** Draws a gauge: what it says of itself, and how far it is off. Its stated accuracy is taken for two standard deviations. */
export function drawGauge(random: Random): VacuumGauge {
  const accuracyRatio = random.choice([0.05, 0.1]);
  return {
    gaugeId: 'gauge',
    kind: accuracyRatio === 0.05 ? 'capacitance' : 'thermal',
    accuracyRatio,
    stepPa: Number(random.weighted({ 1: 0.7, 5: 0.18, 10: 0.12 })) * MICRON_PA,
    rangeMaxPa: random.choice([12_000, 20_000, 25_000, 30_000]) * MICRON_PA,
    calibratedOn: '2025-01-01',
    gainRatio: random.normal(1, accuracyRatio / 2),
    noiseRatio: random.uniform(0.005, 0.015),
    lagS: random.uniform(0.5, 2.2),
    intervalS: random.choice([1, 1, 2, 2, 2, 3, 4, 5]),
  };
}
