import type { Addition } from '../accounts/additions.ts';
import type { ApplianceRecord } from '../accounts/appliance-record.ts';
import type { LeakEvent, LeakRateMethod, LeakYear } from '../accounts/appliance-leaks.ts';
import type { RuleReason, RuleVerdict } from '../accounts/applicable-rule.ts';
import type { GwpVintage } from '../accounts/gwp.ts';
import type { Obligation } from '../accounts/obligation.ts';
import type { YearlyLoss } from '../accounts/repair-worth.ts';
import type { Jurisdiction, RuleBasis } from '../accounts/rules/rule-set.ts';
import type { ApartGroup, Worth } from './accounts-data.ts';

/** A rule set as an output names it. */
export interface NamedRule {
  readonly id: string;
  readonly title: string;
  readonly citation: string;
  /** First day on which it holds. */
  readonly from: string;
  readonly recordsYears: number;
  /** How its figures are known, the least sure last. */
  readonly bases: readonly RuleBasis[];
}

/** How many appliances a rule has a say in, and why not in others. */
export interface RuleCount extends NamedRule {
  readonly applies: number;
  /** By reason, most first. */
  readonly doesNot: readonly { readonly reason: RuleReason['id']; readonly appliances: number }[];
  readonly unknown: readonly { readonly reason: RuleReason['id']; readonly appliances: number }[];
}

/** An appliance with its leak rate. */
export interface LeakLine {
  readonly appliance: ApplianceRecord;
  /** The rule on leak rates that applies; null where none does, or none for certain. */
  readonly ruleId: string | null;
  /** Above which repair is due [ratio]. */
  readonly trigger: number | null;
  /**
   * The highest that is over the trigger and not repaired, else the latest; as the rule takes it, else by the definitions alone. Null
   * where nothing was added for a leak.
   */
  readonly latest: LeakEvent | null;
  /** Whether the latest rate is over the trigger. */
  readonly isOver: Readonly<Record<LeakRateMethod, boolean>>;
  /** Day of the repair that answers it, since 1970; null where none is on record. */
  readonly repairedDay: number | null;
  /** Added for leaks over the last 365 days [kg]. */
  readonly yearKg: number;
  readonly year: Worth;
}

/** An appliance as what repairing it would be worth. */
export interface WorthLine {
  readonly appliance: ApplianceRecord;
  readonly loss: YearlyLoss;
  /** Of a year's loss. */
  readonly worth: Worth;
  /** What a repair usually costs, the middle one on record, and of what; null where none is. */
  readonly repairCost: number | null;
  readonly repairCostOf: 'own' | 'sector' | 'all' | null;
  /** Years in which the refrigerant alone pays for it. */
  readonly paidBackYears: number | null;
}

/** Which systems leak, how much, and past which trigger. */
export interface LeaksReport {
  readonly asOf: string;
  readonly lastDay: string;
  readonly vintage: GwpVintage;
  readonly method: LeakRateMethod;
  /** Whose rules are taken to apply where the record does not say; null: none. */
  readonly jurisdiction: Jurisdiction | null;
  readonly appliances: number;
  readonly withLeaks: number;
  readonly rules: readonly RuleCount[];
  /** Those to which a rule on leak rates applies, the highest rate first. */
  readonly ruled: readonly LeakLine[];
  /** Of the others the highest rates, or all. */
  readonly others: readonly LeakLine[];
  /** Calendar years in which an appliance took its whole charge and a quarter, or more. */
  readonly chronic: readonly { readonly systemId: string; readonly ruleId: string; readonly year: LeakYear }[];
  readonly worth: readonly WorthLine[];
  readonly apart: readonly ApartGroup[];
  readonly notice: string;
}

/** One appliance, with everything that its rates rest on. */
export interface ApplianceReport {
  readonly asOf: string;
  readonly lastDay: string;
  readonly vintage: GwpVintage;
  readonly method: LeakRateMethod;
  readonly appliance: ApplianceRecord;
  /** Of the whole charge. */
  readonly charge: Worth;
  readonly additions: readonly Addition[];
  readonly ruled: readonly {
    readonly rule: NamedRule;
    readonly verdict: RuleVerdict;
    readonly events: readonly LeakEvent[];
  }[];
  readonly events: readonly LeakEvent[];
  readonly years: readonly LeakYear[];
  readonly obligations: readonly Obligation[];
  readonly apart: readonly ApartGroup[];
  readonly notice: string;
}

/** An instrument whose calibration is due. */
export interface CalibrationLine {
  readonly gaugeId: string;
  readonly kind: string | null;
  readonly calibratedOn: string | null;
  readonly dueOn: string | null;
  readonly state: 'due' | 'overdue' | 'unknown';
}

/** What is due, overdue, or cannot be told. */
export interface DueReport {
  readonly asOf: string;
  readonly lastDay: string;
  readonly withinDays: number;
  readonly method: LeakRateMethod;
  readonly jurisdiction: Jurisdiction | null;
  readonly rules: readonly NamedRule[];
  /** Overdue first, then what is due within those days, then what cannot be told; of each the earliest first. */
  readonly open: readonly DueLine[];
  /** Due later than that, done, and done late. */
  readonly later: number;
  readonly done: number;
  readonly doneLate: readonly DueLine[];
  readonly calibrationMonths: number;
  readonly calibrations: readonly CalibrationLine[];
  /** Appliances of which no rule can be told, by what the record lacks. */
  readonly untold: readonly {
    readonly reason: RuleReason['id'];
    readonly appliances: readonly string[];
    readonly count: number;
  }[];
  readonly notice: string;
}

/** An obligation with what people know the appliance by. */
export interface DueLine extends Obligation {
  readonly siteId: string | null;
  readonly refrigerant: string | null;
  readonly dueOn: string | null;
}
