import type { Random } from '../numerics/random.ts';
import { leakUnderPressure } from './leak-under-pressure.ts';
import type { CircuitPart, LeakSort, StandingTest, TestGauge, TestStage } from './standing-test.ts';
import { drawTestParts } from './test-weather.ts';

/** What a standing test is drawn from. */
export interface DrawStandingTestOptions {
  readonly random: Random;
  readonly volumeM3: number;
  readonly atmospherePa: number;
  /** Start, in days since the first, with its fraction. */
  readonly day: number;
  /** Temperature of the pipes when it is over [°C]. */
  readonly lineC: number;
  /** Leak of the circuit as the vacuum would see it [Pa/s], and through what. */
  readonly leakPaPerS: number;
  readonly sort: LeakSort;
  /** What the gauge shows when the last valve is shut [Pa], counted from the air. */
  readonly shownPa: number;
  readonly gauge: TestGauge;
  readonly holdS: number;
  /** Where it stands and in what weather; absent: drawn. */
  readonly parts?: readonly CircuitPart[];
}

const PSI_PA = 6894.757293168;

/** Draws a standing test, but for what its gauge and clamp will show. */
export function drawStandingTest(options: DrawStandingTestOptions): StandingTest {
  const { random, volumeM3, atmospherePa, day, lineC, leakPaPerS, sort, gauge } = options;
  // Gauges are believed.
  const fullPa = (options.shownPa - gauge.zeroPa) / (1 + gauge.gainRatio) + atmospherePa;
  const stages = drawStages(random, fullPa, options.holdS, atmospherePa);
  const releaseS = random.chance(0.7) ? random.logUniform(15, 120) : undefined;
  const idleS = random.uniform(10, 90);
  const durationS = stages.reduce((sum, { fillS, holdS }) => sum + fillS + holdS, idleS + (releaseS ?? 0));
  return {
    volumeM3,
    atmospherePa,
    parts: options.parts ?? drawTestParts({ random, day, durationS, lineC }),
    stages,
    leakMolPerS: leakUnderPressure({
      leakPaPerS,
      volumeM3,
      temperatureK: lineC + 273.15,
      atmospherePa,
      pressurePa: fullPa,
      sort,
    }),
    leakSort: sort,
    fillingK: random.uniform(-2, 8),
    settlingS: random.logUniform(20, 150),
    releaseS,
    idleS,
  };
}

/** Straight to the pressure, or by way of a low one, with soap at every joint, and mostly one between. */
function drawStages(random: Random, fullPa: number, holdS: number, atmospherePa: number): TestStage[] {
  const below = random.chance(0.3) ? (random.chance(0.7) ? [10, 150] : [10]) : [];
  return [
    ...below.map((psi) => ({
      toPa: psi * PSI_PA * random.uniform(0.9, 1.1) + atmospherePa,
      fillS: random.logUniform(6, 60),
      holdS: random.uniform(120, 420),
    })),
    { toPa: fullPa, fillS: random.logUniform(20, 240), holdS },
  ];
}
