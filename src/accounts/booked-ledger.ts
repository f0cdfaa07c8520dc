import type { Balance } from './balance.ts';
import type { ApartReason, CylinderAccount, CylinderRemark } from './cylinder-account.ts';
import type { CylinderRecord } from './cylinder-record.ts';

/** By what a balance is taken. */
export const groupings = ['refrigerant', 'month', 'crew', 'technician', 'site', 'cylinder'] as const;
export type Grouping = (typeof groupings)[number];

/** First and last day that are looked at, since 1970. */
export interface Period {
  readonly fromDay: number;
  readonly toDay: number;
}

/** One line of the month-by-refrigerant table. */
export interface MonthBalance {
  /** YYYY-MM. */
  readonly month: string;
  readonly refrigerant: string;
  readonly balance: Balance;
}

/** Flows within the period that are alike in all that charts can be filtered by: a month, a refrigerant, a crew and a technician. */
export interface BalanceCell {
  /** YYYY-MM. */
  readonly month: string;
  readonly refrigerant: string;
  /**
   * Whose weighing it was, or whose the weighings on both sides of what is missing were; else the crew that alone used the cylinder, as
   * for what was bought. '' for none.
   */
  readonly crewId: string;
  /** Whose weighing it was, or whose both were; '' for none. */
  readonly technicianId: string;
  /** Without opening and on hand: they belong to no one. */
  readonly balance: Omit<Balance, 'openingKg' | 'onHandKg'>;
}

/** A cylinder's line. */
export interface CylinderLine {
  readonly cylinder: CylinderRecord;
  readonly balance: Balance;
  /** The crew that all of its weighings are of; null where there are several, or none. */
  readonly crewId: string | null;
  readonly weighings: number;
  readonly remarks: readonly CylinderRemark[];
}

/** Something kept apart, with the reason. */
export interface ApartEntry {
  readonly reason: ApartReason;
  /** A weighing, a cylinder, a job or an appliance, by `what`. */
  readonly what: 'weighing' | 'cylinder' | 'job' | 'appliance' | 'callback';
  readonly id: string;
  readonly refrigerant: string | null;
  /** How much it is about, where its weights say [kg]. */
  readonly kg: number | null;
  readonly day: number | null;
}

/** Everything that was booked. */
export interface BookedLedger {
  readonly total: Balance;
  readonly byRefrigerant: ReadonlyMap<string, Balance>;
  readonly byMonth: readonly MonthBalance[];
  /** What adds up to the months; empty where cells are not wanted. */
  readonly cells: readonly BalanceCell[];
  /** By the crew that alone used a cylinder; the key '' has those that several share, or nobody used. */
  readonly byCrew: ReadonlyMap<string, Balance>;
  /** What they charged and recovered, and what went missing between two weighings of theirs; '' has the rest. */
  readonly byTechnician: ReadonlyMap<string, Balance>;
  readonly bySite: ReadonlyMap<string, Balance>;
  /** All where balances by cylinder are wanted, else those with a remark. */
  readonly cylinders: readonly CylinderLine[];
  /** Cylinders with an account of their own. */
  readonly booked: number;
  readonly apart: readonly ApartEntry[];
  readonly weighings: number;
  /** The account that was asked for, and all that there is to say of it. */
  readonly kept: { readonly account: CylinderAccount; readonly remarks: readonly CylinderRemark[] } | null;
}
