import type { Balance } from '../accounts/balance.ts';
import type { CylinderRecord } from '../accounts/cylinder-record.ts';
import type { CylinderGap, WalkedWeighing } from '../accounts/cylinder-walk.ts';
import type { ApartReason, CylinderRemark } from '../accounts/cylinder-account.ts';
import type { GwpVintage } from '../accounts/gwp.ts';
import type { ApartEntry, Grouping } from '../accounts/booked-ledger.ts';
import type { CallbackCause } from '../fleet/callbacks/callback-cause.ts';

/** A mass as money and as carbon dioxide; null where the price or the value is not known. */
export interface Worth {
  readonly cost: number | null;
  readonly co2eT: number | null;
}

/** A line of a mass balance. What a person or a site does not hold is null. */
export interface BalanceLine {
  /** A refrigerant, a month, a crew and so on; of months by refrigerant, YYYY-MM. Empty for what belongs to none. */
  readonly id: string;
  readonly name: string;
  readonly openingKg: number | null;
  readonly boughtKg: number | null;
  readonly chargedKg: number;
  readonly recoveredKg: number;
  readonly returnedKg: number | null;
  /** In cylinders that were closed without being weighed. */
  readonly untoldKg: number | null;
  readonly unexplainedKg: number;
  /** Half the width of its 95 % interval. */
  readonly unexplainedHalfWidthKg: number;
  readonly onHandKg: number | null;
  /** Paid for what was bought. */
  readonly cost: number | null;
  readonly charged: Worth;
  readonly unexplained: Worth;
}

/** What was needed and what was put in. */
export interface NeedLine {
  readonly id: string;
  readonly name: string;
  readonly jobs: number;
  /** Jobs that are too unsure to be added up. */
  readonly unsure: number;
  readonly wantedKg: number;
  readonly chargedKg: number;
  /** Charged less wanted, and half the width of its 95 % interval. */
  readonly overKg: number;
  readonly halfWidthKg: number;
  readonly surelyOver: number;
  readonly surelyOverKg: number;
  readonly surelyUnder: number;
  readonly surelyUnderKg: number;
  /** Of what is over. */
  readonly over: Worth;
}

/** A job that put in surely more than was needed. */
export interface OverchargedLine {
  readonly jobId: string;
  readonly day: string;
  readonly technician: string;
  readonly refrigerant: string | null;
  readonly wantedKg: number;
  readonly chargedKg: number;
  readonly overKg: number;
  readonly lowKg: number;
  readonly highKg: number;
  readonly slip: string | null;
  readonly over: Worth;
}

/** A cylinder of which there is something to say. */
export interface RemarkedCylinder {
  readonly cylinderId: string;
  readonly refrigerant: string | null;
  readonly crew: string | null;
  readonly remarks: readonly CylinderRemark[];
}

/** What is kept apart for one reason. */
export interface ApartGroup {
  readonly reason: ApartReason;
  readonly what: ApartEntry['what'];
  readonly count: number;
  /** Together, where weights say [kg]. */
  readonly kg: number;
  readonly entries: readonly ApartEntry[];
}

/** A month in which something stands out. */
export interface MonthSignal {
  /** YYYY-MM. */
  readonly month: string;
  readonly id: 'unexplained' | 'unexplained-drift' | 'leak-additions';
  readonly value: number;
  /** What it would hardly have passed by chance. */
  readonly limit: number;
}

/** Unexplained mass and leaks of a month. */
export interface TrendMonth {
  readonly month: string;
  readonly unexplainedKg: number;
  readonly halfWidthKg: number;
  /** Added for leaks to appliances of which the full charge is known: how often, and how much. */
  readonly leakAdditions: number;
  readonly leakKg: number;
  /** The same as a share of all those charges, as if it went on for a year [ratio]. */
  readonly leakRate: number | null;
}

/** What callbacks of one cause cost. */
export interface CallbackCostLine {
  readonly cause: CallbackCause;
  readonly callbacks: number;
  readonly costed: number;
  readonly cost: number;
  /** Within the warranty, by the days after the work that they trace to. */
  readonly inWarranty: number;
  readonly warrantyCost: number;
  readonly refrigerantKg: number;
}

/** Where the refrigerant goes. */
export interface AccountsReport {
  readonly period: { readonly from: string; readonly to: string };
  /** Last day on which anything is on record. */
  readonly lastDay: string;
  readonly vintage: GwpVintage;
  /** Refrigerants whose value of that vintage rests on stand-ins or memory, or is not known. */
  readonly vintageNotes: readonly string[];
  readonly cylinders: number;
  readonly weighings: number;
  /** Whether the scales' series have a say: jobs were judged. */
  readonly isMeasured: boolean;
  readonly total: BalanceLine;
  readonly lines: Readonly<Record<Grouping, readonly BalanceLine[]>>;
  readonly remarked: readonly RemarkedCylinder[];
  /** Cylinders with a remark, by what it says. */
  readonly remarkCounts: Readonly<Record<CylinderRemark['id'], number>>;
  /** Of what is missing, as much as weighings that are kept apart took [kg]. */
  readonly apartKg: number;
  readonly apart: readonly ApartGroup[];
  readonly needs: {
    readonly total: NeedLine;
    readonly technicians: readonly NeedLine[];
    readonly months: readonly NeedLine[];
    readonly jobs: readonly OverchargedLine[];
  } | null;
  readonly trend: readonly TrendMonth[];
  readonly signals: readonly MonthSignal[];
  readonly warrantyDays: number;
  readonly callbackCosts: readonly CallbackCostLine[];
}

/** A weighing in a cylinder's ledger. */
export interface CylinderLedgerLine {
  readonly weighingId: string;
  readonly on: string;
  readonly jobId: string | null;
  readonly crew: string | null;
  readonly technician: string | null;
  /** As written. */
  readonly startKg: number;
  readonly endKg: number;
  /** Which of the two is mistyped, and what it should be. */
  readonly mended: WalkedWeighing['mended'];
  /** What it weighed less at the start than it should have; null where nothing tells. */
  readonly missingKg: number | null;
  readonly isBeyond: boolean;
  /** What left it; below 0 what came in. */
  readonly outKg: number;
  /** What is in it afterwards. */
  readonly contentKg: number;
}

/** One cylinder, weighing by weighing. */
export interface CylinderReport {
  readonly lastDay: string;
  readonly cylinder: CylinderRecord;
  /** Why it has no account; null where it has one. */
  readonly noAccount: ApartReason | null;
  readonly lines: readonly CylinderLedgerLine[];
  readonly closing: CylinderGap | null;
  readonly balance: Balance;
  readonly remarks: readonly CylinderRemark[];
  readonly apart: readonly { readonly weighingId: string; readonly reason: ApartReason }[];
}
