import { Random } from '../../src/numerics/random.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../src/physics/gas-constant.ts';
import type {
  CircuitPart,
  LeakSort,
  StandingTest,
  TestClamp,
  TestGauge,
  TestStage,
} from '../../src/simulate/standing-test.ts';
import type { Weather } from '../../src/simulate/wall-temperature.ts';

/** A standing test before it happens: all that is drawn of it but the noise. */
export interface StandingTrialPlan {
  readonly seed: number;
  readonly number: number;
  readonly kind: 'tight' | 'leaking';
  /** What it was filled to at last, absolute [Pa], and how long it was held [s]. */
  readonly pressurePa: number;
  readonly holdS: number;
  readonly test: StandingTest;
  readonly gauge: TestGauge;
  /** Undefined where the pipe's temperature was not logged. */
  readonly clamp: TestClamp | undefined;
  readonly clampAccuracyK: number;
  readonly clampRecorded: boolean;
  readonly volumeRecorded: boolean;
}

const PSI_PA = 6894.757293168;
const ATMOSPHERES_PA = [101_325, 101_325, 98_000, 84_000] as const;

/**
 * Draws a standing test: 300 to 550 psig for 15 minutes to 24 hours, on a part of the circuit in the sun and, in two of
 * five, another one indoors; drift of up to 15 K, sun and cloud; gauges in steps of 0.1 to 5 psi, most of 1; clamps that
 * read a change a little wrong.
 */
export function drawStandingTrial(seed: number, number: number): StandingTrialPlan {
  const random = new Random(seed, 500_000 + number);
  const kind = number % 2 === 0 ? 'leaking' : 'tight';
  const holdS = random.logUniform(900, 86_400);
  const atmospherePa = random.choice(ATMOSPHERES_PA);
  const pressurePa = random.choice([300, 400, 450, 500, 550]) * PSI_PA + atmospherePa;
  const outdoors = random.chance(0.6) ? 1 : random.uniform(0.5, 0.95);
  const weather = drawWeather(random, holdS);
  const indoors: Weather = {
    ...weather,
    airK: 295 + random.normal(0, 2),
    driftKPerS: random.normal(0, 1) / Math.max(holdS, 14_400),
    swingK: 0,
    sunK: 0,
  };
  const parts: CircuitPart[] = [
    { share: outdoors, weather },
    ...(outdoors < 1 ? [{ share: 1 - outdoors, weather: indoors }] : []),
  ];
  const volumeM3 = random.logUniform(1e-3, 12e-3);
  // What it loses over the test, as a share of what it holds: from what hardly shows to what nobody overlooks.
  const lostRatio = kind === 'leaking' ? random.logUniform(1e-3, 0.15) : 0;
  const heldMol = (pressurePa * volumeM3) / (GAS_CONSTANT_J_PER_MOL_K * weather.airK);
  const staged = random.chance(0.4);
  const full: TestStage = { toPa: pressurePa, fillS: random.logUniform(8, 240), holdS };
  const test: StandingTest = {
    volumeM3,
    atmospherePa,
    parts,
    stages: staged ? [...lowerStages(random, pressurePa, atmospherePa), full] : [full],
    leakMolPerS: (lostRatio * heldMol) / holdS,
    leakSort: random.choice<LeakSort>(['molecular', 'hole', 'laminar']),
    fillingK: random.uniform(-6, 12),
    settlingS: random.logUniform(20, 180),
    releaseS: random.chance(0.6) ? random.logUniform(6, 120) : undefined,
    idleS: random.uniform(5, 120),
  };
  const stepPa = random.choice([0.1, 1, 1, 1, 1, 1, 5]) * PSI_PA;
  const clampAccuracyK = random.choice([0.5, 1, 1, 2]);
  return {
    seed,
    number,
    kind,
    pressurePa,
    holdS,
    test,
    gauge: {
      stepPa,
      noisePa: random.uniform(0.05, 0.5) * Math.min(stepPa, PSI_PA),
      gainRatio: random.normal(0, 0.005),
      perKRatio: random.normal(0, 1e-4),
      zeroPa: random.normal(0, 0.5 * PSI_PA),
      walkPa: random.chance(0.2) ? (random.uniform(0, 0.6) * PSI_PA) / Math.sqrt(holdS) : 0,
      intervalS: random.choice(holdS > 14_400 ? [5, 15, 60, 300] : [1, 2, 5, 15, 60]),
    },
    clamp: random.chance(0.85)
      ? {
          part: 0,
          offsetK: random.normal(0, clampAccuracyK / 2),
          gainRatio: random.normal(1, 0.04 * clampAccuracyK),
          stepK: random.choice([0.1, 0.1, 0.5]),
          noiseK: random.uniform(0.02, 0.15),
          lagS: random.logUniform(5, 180),
        }
      : undefined,
    clampAccuracyK,
    clampRecorded: random.chance(0.6),
    volumeRecorded: random.chance(0.6),
  };
}

function drawWeather(random: Random, holdS: number): Weather {
  // 15 K at most over the test, and 5 K an hour.
  const mostK = Math.min(15, (5 * holdS) / 3600);
  const isLong = holdS > 21_600;
  return {
    airK: random.uniform(275, 308),
    driftKPerS: random.uniform(-1, 1) * ((isLong ? 4 : mostK) / holdS),
    swingK: isLong ? random.uniform(0, 6) : 0,
    dayPhase: random.uniform(0, 2 * Math.PI),
    sunK: random.chance(0.5) ? random.uniform(1, 15) : 0,
    sunnyS: random.logUniform(300, 5400),
    cloudyS: random.logUniform(300, 5400),
    wallS: random.logUniform(60, 500),
  };
}

/** Stages on the way up: a low one with soap at every joint, and one or two between. */
function lowerStages(random: Random, pressurePa: number, atmospherePa: number): TestStage[] {
  const lows = [10 * PSI_PA + atmospherePa, ...(random.chance(0.7) ? [150 * PSI_PA + atmospherePa] : [])];
  const all = random.chance(0.3) ? [...lows, 0.85 * pressurePa] : lows;
  return all.map((toPa) => ({ toPa, fillS: random.logUniform(4, 60), holdS: random.uniform(90, 420) }));
}
