import type { Random } from '../../numerics/random.ts';

/** Somebody leans on the cylinder or lifts at it for a while. */
export interface ScaleBump {
  readonly durationS: number;
  /** What that adds to the display, some seconds after it began; 0 before and after [kg]. */
  readonly addedKg: (sinceS: number) => number;
}

/** Draws a bump of 3 to 15 s and 0.1 to 3 kg: quickly there, unsteady, and quickly gone. */
export function drawScaleBump(random: Random): ScaleBump {
  const durationS = random.uniform(3, 15);
  const heightKg = random.logUniform(0.1, 3) * (random.chance(0.7) ? 1 : -1);
  const unsteady = random.uniform(0, 0.3);
  const swayS = random.uniform(1.5, 6);
  const phase = random.uniform(0, 2 * Math.PI);
  return {
    durationS,
    addedKg(sinceS) {
      if (sinceS <= 0 || sinceS >= durationS) return 0;
      const edge = Math.min(1, sinceS / 0.6, (durationS - sinceS) / 0.6);
      return heightKg * edge * (1 + unsteady * Math.sin(phase + (2 * Math.PI * sinceS) / swayS));
    },
  };
}
