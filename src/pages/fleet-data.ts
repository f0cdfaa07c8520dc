import type { CheckShare } from '../fleet/check-shares.ts';
import type { Grouping } from '../fleet/fleet-jobs.ts';
import type { Skill } from '../fleet/skill.ts';
import type { SkillChange } from '../fleet/skill-changes.ts';
import type { TrainingEffect } from '../fleet/statistics/training-effect.ts';
import type { UnitRate } from '../fleet/unit-rate.ts';

/** A technician, a crew, an instrument or the fleet as an output names it. */
export interface NamedUnit {
  readonly kind: Grouping | 'fleet';
  /** With codes, a technician's code. */
  readonly id: string;
  readonly name: string;
}

/** What was found of a unit beside what was expected, and to whom or what it is laid. */
export interface UnitExcess {
  readonly unit: NamedUnit;
  readonly skill: Pick<Skill, 'id' | 'title' | 'counts'>;
  readonly rate: UnitRate;
  readonly laidTo: {
    readonly verdict: 'people' | 'shared' | 'both' | 'not-separable';
    readonly people: readonly NamedUnit[];
    readonly shared: readonly NamedUnit[];
  };
  /** The checks that flagged more of its jobs than of all, those that make the most of the excess first. */
  readonly checks: readonly CheckShare[];
}

/** A unit that stands out. */
export interface UnitStandingOut extends UnitExcess {
  readonly falseDiscoveryShare: number;
}

/** A change over time, dated with the job that set it off. */
export interface DatedChange {
  readonly unit: NamedUnit;
  readonly skill: Pick<Skill, 'id' | 'title'>;
  readonly direction: SkillChange['direction'];
  readonly chart: SkillChange['chart'];
  readonly jobId: string;
  readonly day: string;
  readonly sinceJobId: string;
  readonly sinceDay: string;
  readonly level: number;
  readonly limit: number;
}

/** What a training did in one skill; without an effect where the topic is none of ours or the technician has no job. */
export interface TrainingReport {
  readonly trainingId: string;
  readonly technician: NamedUnit;
  readonly day: string;
  readonly topic: string;
  readonly skill: Pick<Skill, 'id' | 'title'> | null;
  readonly effect: TrainingEffect | null;
}

/** Rates of one skill or check, of all units. */
export interface RatesReport {
  readonly skill: Pick<Skill, 'id' | 'title' | 'counts'>;
  readonly kind: 'skill' | 'check';
  readonly fleet: {
    readonly found: number;
    readonly jobs: number;
    readonly notEvaluated: number;
    readonly missing: number;
  };
  readonly groupings: readonly {
    readonly kind: NamedUnit['kind'];
    /** Standard deviation between units that chance does not explain, and that is their own beside all others [logit]. */
    readonly usualSpread: number;
    readonly ownSpread: number | null;
    readonly units: readonly (UnitRate & { readonly unit: NamedUnit })[];
  }[];
}

/** Which jobs a report is about. */
export interface FleetSummary {
  readonly policyId: string;
  readonly period: { readonly from: string; readonly to: string };
  readonly jobs: number;
  /** Judged, but without a record that says when and by whom. */
  readonly undated: number;
  readonly technicians: number;
  readonly crews: number;
}

/** Rates of some skills and checks. */
export interface FleetRates extends FleetSummary {
  readonly rates: readonly RatesReport[];
}

/** Who needs what, as far as the judged jobs show it. */
export interface FleetReport extends FleetRates {
  readonly falseDiscoveryLimit: number;
  /** How many comparisons were made. */
  readonly tested: { readonly people: number; readonly shared: number };
  readonly standingOut: readonly UnitStandingOut[];
  /** How many series were looked at for changes, and in how many chance alone signals one. */
  readonly lookedAt: { readonly series: number; readonly byChance: number };
  readonly changes: readonly DatedChange[];
  readonly trainings: readonly TrainingReport[];
}
