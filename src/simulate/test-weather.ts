import type { Random } from '../numerics/random.ts';
import { seasonC } from './calendar.ts';
import type { CircuitPart } from './standing-test.ts';
import type { Weather } from './wall-temperature.ts';

/** When and where a test stands. */
export interface TestWeatherOptions {
  readonly random: Random;
  /** In days since the first, with its fraction. */
  readonly day: number;
  readonly durationS: number;
  /** Temperature of the pipes when it is over [°C]. */
  readonly lineC: number;
}

const DAY_S = 86_400;
/** Nobody sees a test in the sun through a night: the sun is drawn for the shorter ones only [s]. */
const SUN_UP_TO_S = 18_000;

/**
 * Draws the parts of a circuit and the weather of each: the line set outdoors, first, and mostly some of it indoors.
 *
 * The air outdoors swings with the hour, warmest at three, and drifts with the weather; over a night both together come
 * to 15 K at most. The sun is warmest at noon and in summer.
 */
export function drawTestParts(options: TestWeatherOptions): CircuitPart[] {
  const { random, day, durationS, lineC } = options;
  const hour = (day % 1) * 24;
  const driftK = Math.max(-4, Math.min(4, (random.normal(0, 0.25) * durationS) / 3600));
  const noon = Math.max(0, Math.sin((Math.PI * (hour - 6)) / 12)) * (0.8 + 0.02 * (seasonC(day) - 14));
  const inSun = random.chance(0.45) && durationS <= SUN_UP_TO_S;
  const outdoors: Weather = {
    airK: 0,
    driftKPerS: driftK / durationS,
    swingK: random.uniform(2, 5.5),
    dayPhase: (2 * Math.PI * (hour - 9)) / 24,
    sunK: inSun ? random.uniform(2, 15) * noon : 0,
    sunnyS: random.logUniform(300, 3600),
    cloudyS: random.logUniform(300, 3600),
    wallS: random.uniform(60, 400),
  };
  const endsK = lineC + 273.15;
  const weather = { ...outdoors, airK: endsK - airAfter(outdoors, durationS) };
  const indoors: Weather = {
    ...outdoors,
    airK: 294 + random.normal(0, 2),
    driftKPerS: Math.max(-2, Math.min(2, (random.normal(0, 0.3) * durationS) / 3600)) / durationS,
    swingK: 0.5,
    sunK: 0,
  };
  const share = random.chance(0.25) ? 1 : random.uniform(0.5, 0.9);
  return share === 1
    ? [{ share, weather }]
    : [
        { share, weather },
        { share: 1 - share, weather: indoors },
      ];
}

/** Temperature of the air some seconds later [K]. */
function airAfter({ airK, driftKPerS, swingK, dayPhase }: Weather, afterS: number): number {
  const swing = Math.sin(dayPhase + (2 * Math.PI * afterS) / DAY_S) - Math.sin(dayPhase);
  return airK + driftKPerS * afterS + swingK * swing;
}

/** The same parts some seconds later. */
export function partsAfter(parts: readonly CircuitPart[], afterS: number): CircuitPart[] {
  return parts.map(({ share, weather }) => ({
    share,
    weather: {
      ...weather,
      airK: airAfter(weather, afterS),
      dayPhase: weather.dayPhase + (2 * Math.PI * afterS) / DAY_S,
    },
  }));
}
