import type { JobReadings } from '../job-log.ts';

/** What a column of simulated readings is called in a bundle. */
export function readingColumnOf(name: keyof JobReadings): string {
  return name === 'testPa' ? 'test_pressure_pa' : name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}
