import type { Random } from '../../numerics/random.ts';
import type { Circuit } from '../evacuation.ts';

/** A shape that is in the true pressure of an isolated system and in no model. */
export interface Unmodelled {
  readonly name: 'warming' | 'third-volume' | 'stretched-desorption' | 'leak-changes' | 'hose-touched';
  /** What of the rise it is; `either` where nothing in a rise tells slow settling from moisture. */
  readonly part: 'settling' | 'vapour' | 'either' | 'leak';
  /** What it was drawn with, for the eye. */
  readonly figures: Readonly<Record<string, number>>;
  /** What it adds to a pressure, so long after valve-off [Pa]. */
  readonly addedPa: (sinceS: number, pressurePa: number) => number;
  /** The leak as a multiple of the one drawn, so long after valve-off. */
  readonly leakMultiple: (sinceS: number) => number;
}

/** A smaller leak has nothing that could change [Pa/s]. */
export const LEAKING_PA_PER_S = 0.01;

/**
 * Draws one: gas that the sun warms (or a cloud cools), a third volume that evens out slowly, desorption as a stretched exponential, a leak that
 * opens or closes under way, or a hose that somebody touches.
 *
 * @param startPa about the pressure at valve-off
 */
export function drawUnmodelled(random: Random, circuit: Circuit, riseS: number, startPa: number): Unmodelled {
  const none = { addedPa: () => 0, leakMultiple: () => 1 };
  const leaks = circuit.leakPaPerS >= LEAKING_PA_PER_S;
  const name = random.weighted<Unmodelled['name']>({
    warming: 1,
    'third-volume': 1,
    'stretched-desorption': 1,
    'hose-touched': 1,
    'leak-changes': leaks ? 1.5 : 0,
  });
  if (name === 'warming') {
    const ratio = (random.uniform(0.3, 1.5) * (random.chance(0.25) ? -1 : 1)) / circuit.temperatureK;
    const onsetS = random.uniform(0, 0.5) * riseS;
    const lastS = random.uniform(0.4, 1) * riseS;
    const share = (sinceS: number) => Math.min(1, Math.max(0, (sinceS - onsetS) / lastS));
    return {
      ...none,
      name,
      part: 'settling',
      figures: { ratio, onsetS, lastS },
      addedPa: (s, pressurePa) => pressurePa * ratio * share(s),
    };
  }
  if (name === 'third-volume') {
    const pa = startPa * random.uniform(0.02, 0.2);
    const tauS = random.logUniform(40, 400);
    return { ...none, name, part: 'either', figures: { pa, tauS }, addedPa: (s) => (pa * s) / (s + tauS) };
  }
  if (name === 'stretched-desorption') {
    const pa = random.logUniform(3, 80);
    const tauS = random.logUniform(60, 600);
    const stretch = random.uniform(0.5, 0.8);
    return {
      ...none,
      name,
      part: 'vapour',
      figures: { pa, tauS, stretch },
      addedPa: (s) => pa * (1 - Math.exp(-((s / tauS) ** stretch))),
    };
  }
  if (name === 'hose-touched') {
    const atS = random.uniform(0.1, 0.9) * riseS;
    const pa = random.logUniform(0.3, 3);
    const staysRatio = random.uniform(0, 0.5);
    const tauS = random.uniform(5, 60);
    const bumpPa = (s: number) => pa * (staysRatio + (1 - staysRatio) * Math.exp(-s / tauS));
    const figures = { atS, pa, staysRatio, tauS };
    return { ...none, name, part: 'settling', figures, addedPa: (s) => (s < atS ? 0 : bumpPa(s - atS)) };
  }
  const multiple = random.chance(0.3) ? random.uniform(0.5, 0.8) : random.uniform(1.3, 2.5);
  const power = random.choice([1, 2]);
  return {
    ...none,
    name,
    part: 'leak',
    figures: { multiple, power },
    leakMultiple: (s) => 1 + (multiple - 1) * Math.min(1, Math.max(0, s / riseS)) ** power,
  };
}
