import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import type { UnitSystem } from '../../units/display.ts';

/** What the limits of a judgement are told from. */
export interface UnseenMaterial {
  readonly facts: Partial<Facts>;
  readonly job: Pick<Job, 'charge_basis' | 'work_type'> | undefined;
  readonly units: UnitSystem;
}

/** What could not have been seen, each in a few words that follow "could not have seen"; empty ones do not count. */
export type UnseenPhrases = (material: UnseenMaterial) => readonly string[];

/** What a check could not have seen, where it passed and where it was flagged. */
export interface UnseenWords {
  readonly passed: UnseenPhrases;
  /** Left out where it is the same. */
  readonly flagged?: UnseenPhrases;
}

/** By the ids of a group's checks. */
export type UnseenByCheck = Readonly<Record<string, UnseenWords>>;
