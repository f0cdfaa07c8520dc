/**
 * What of a job makes findings likelier whoever does it. A factor of numbers has the bounds of its levels, one of words takes them
 * as they come. Level 0 is always "not on record".
 */
export interface MixFactor {
  readonly name: string;
  /** What a reader would call it. */
  readonly title: string;
  /** Upper bounds of all levels but the last, in `unit`. */
  readonly bounds?: readonly number[];
  readonly unit?: string;
  /** Whether it is about gear that people have, rather than about the job. */
  readonly isOfGear?: boolean;
}

/** Factors of every job. */
const jobFactors = [
  { name: 'refrigerant', title: 'refrigerant' },
  { name: 'system_type', title: 'kind of system' },
  { name: 'work_type', title: 'kind of work' },
  { name: 'line_length_m', title: 'length of the lines', bounds: [5, 10, 15, 25], unit: 'm' },
  { name: 'outdoor_k', title: 'outdoor temperature', bounds: [273.15, 283.15, 293.15, 303.15], unit: 'K' },
] as const satisfies readonly MixFactor[];

/** Factors of what instruments and tests can show: a longer test and a finer gauge find more. */
const sightFactors = [
  { name: 'gauge_accuracy_ratio', title: 'accuracy of the vacuum gauge', bounds: [0.03, 0.06, 0.11], isOfGear: true },
  { name: 'gauge_step_pa', title: 'steps of the vacuum gauge', bounds: [0.2, 2], unit: 'Pa', isOfGear: true },
  { name: 'scale_step_kg', title: 'steps of the scale', bounds: [0.0025, 0.006], unit: 'kg', isOfGear: true },
  { name: 'rise_test_s', title: 'length of the rise test', bounds: [300, 600, 1200], unit: 's' },
  {
    name: 'smallest_leak_seen_pa_per_s',
    title: 'smallest leak that the rise test could have shown',
    bounds: [0.003, 0.01, 0.03, 0.1],
    unit: 'Pa/s',
  },
  { name: 'pressure_test_s', title: 'length of the pressure test', bounds: [1200, 3600, 14400], unit: 's' },
  {
    name: 'smallest_drop_seen_pa',
    title: 'smallest drop that the pressure test could have shown',
    bounds: [15000, 30000, 60000],
    unit: 'Pa',
  },
] as const satisfies readonly MixFactor[];

/** Every factor of the mix of jobs. Levels are common practice, no source. */
export const mixFactors: readonly MixFactor[] = [...jobFactors, ...sightFactors];

export type MixFactorName = (typeof jobFactors)[number]['name'] | (typeof sightFactors)[number]['name'];

/** The factors that every expectation rests on. */
export const jobFactorNames: readonly MixFactorName[] = jobFactors.map(({ name }) => name);

/**
 * The level of a number, from 1; 0 where it is not on record.
 *
 * @param bounds ascending
 *
 * @example mixLevel(7, [5, 10]) // 2
 */
export function mixLevel(value: number, bounds: readonly number[]): number {
  if (Number.isNaN(value)) return 0;
  let level = 1;
  while (level <= bounds.length && value > bounds[level - 1]) level += 1;
  return level;
}
