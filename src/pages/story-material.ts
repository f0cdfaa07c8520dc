import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { UnitSystem } from '../units/display.ts';

/** What a job was held against, as far as its findings tell. */
export interface StoryLimits {
  /** Target by which the pull-down was measured [Pa]. */
  readonly pullTargetPa: number;
  /** Target to hold [Pa], how long it was held and should have been [s]. */
  readonly targetPa?: number;
  readonly heldS?: number;
  readonly wantedS?: number;
  /** How long the isolated system should have been watched [s]. */
  readonly testS?: number;
  /** Limit of the rise [Pa], whether on the level or on the rise, and what was held against it [Pa] after so long [s]. */
  readonly limitPa?: number;
  readonly limitKind?: 'level' | 'rise';
  readonly judgedPa?: number;
  readonly judgedS?: number;
  /** Pressure that the standing pressure test should have reached, absolute [Pa], and how long it should have stood [s]. */
  readonly testTargetPa?: number;
  readonly standAskedS?: number;
  /** Where these two come from. */
  readonly testTargetFrom?: LimitOrigin;
  readonly standFrom?: LimitOrigin;
}

/** Who set a limit: the job's record, common practice, or a source that the policy names. */
export type LimitOrigin = 'record' | 'practice' | 'policy';

/** What the story of a job is told from. */
export interface StoryMaterial {
  readonly facts: Partial<Facts>;
  readonly job:
    | Pick<Job, 'charge_basis' | 'work_type' | 'factory_charge_kg' | 'other_adder_kg' | 'refrigerant'>
    | undefined;
  readonly limits: StoryLimits;
  /** Whether a finding already says how little the rise test could have seen. */
  readonly blindIsSaid: boolean;
  /** Whether a finding already says how little the pressure test could have seen. */
  readonly pressureBlindIsSaid: boolean;
  /** Whether a finding says that the charge is off. */
  readonly chargeIsOff: boolean;
  readonly units: UnitSystem;
}
