import type { MixFactorName } from './job-mix.ts';

/** By whom and with what a job was done. */
export const groupings = ['technician', 'crew', 'pump', 'hose-set', 'gauge', 'scale'] as const;

export type Grouping = (typeof groupings)[number];

/** Units of one grouping, such as technicians. */
export interface Units {
  readonly ids: readonly string[];
  /** By job: the place of its unit among `ids`; −1 where none is on record. */
  readonly of: Int32Array;
}

/** What the checks found, as bits: two numbers a job, the lower 32 checks first. */
export interface OutcomeBits {
  /** Pass, suspect or fail. */
  readonly judged: Uint32Array;
  /** Suspect or fail. */
  readonly found: Uint32Array;
  readonly missing: Uint32Array;
  /** Ids of the checks, in the order of their bits. */
  readonly checkIds: readonly string[];
}

/** Jobs of a fleet that were judged, in the order of time, as columns. */
export interface FleetJobs {
  readonly count: number;
  /** Days since 1970 by the clock of the shop, ascending. */
  readonly days: Int32Array;
  readonly units: Readonly<Record<Grouping, Units>>;
  /** By factor: the level of each job, 0 for not on record. */
  readonly mix: Readonly<Record<MixFactorName, Uint8Array>>;
  readonly outcomes: OutcomeBits;
}
