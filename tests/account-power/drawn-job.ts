import type { Habit } from './drawn-cylinder.ts';
import type { DrawnScale } from './drawn-scale.ts';

/** People with one scale, and how they mostly use it. */
export interface DrawnCrew {
  readonly number: number;
  readonly isPlant: boolean;
  readonly habit: Habit;
  readonly people: number;
  scale: DrawnScale;
}

/** A job that charges or recovers; its weighings take place one after another. */
export interface DrawnJob {
  readonly jobId: string;
  readonly siteId: string;
  readonly technicianId: string;
  readonly crew: DrawnCrew;
  readonly day: number;
  readonly atMs: number;
  readonly temperatureC: number;
  /** What its weighings moved, below 0 into cylinders: as the scale has it, and as it showed [kg]. */
  scaledKg: number;
  shownKg: number;
  weighings: number;
}
