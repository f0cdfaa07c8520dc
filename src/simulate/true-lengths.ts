import type { Random } from '../numerics/random.ts';
import type { System } from './system.ts';

/**
 * Draws how long the lines of a system truly are: as recorded to 0.1 m, on one job in ten up to 3 % longer or shorter.
 */
export function drawTrueLengths(random: Random, system: System): System {
  const wrong = random.chance(0.1);
  const lines = system.lines.map((line) => ({
    ...line,
    trueLengthM: wrong ? line.lengthM * random.uniform(0.97, 1.03) : line.lengthM + random.uniform(-0.05, 0.05),
  }));
  return { ...system, lines };
}
