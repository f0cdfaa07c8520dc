import type { Appliance } from '../../records/tables/appliances.ts';
import type { ReferenceKey } from '../../references.ts';

/** How a figure of a rule reached us: read in the rule's own text, in pages that quote it, or from memory. */
export type RuleBasis = 'rule text' | 'second hand' | 'from memory';

/** A figure of a rule, and how it is known. */
export interface Ruled<Value> {
  readonly value: Value;
  readonly basis: RuleBasis;
}

export type Sector = NonNullable<Appliance['sector']>;
export type Jurisdiction = 'US' | 'EU';

interface RuleSetHead {
  /** Also the name of its file. */
  readonly id: string;
  readonly title: string;
  readonly reference: ReferenceKey;
  readonly jurisdiction: Jurisdiction;
  /** First day on which it holds, and the last; absent: it still holds. ISO 8601. */
  readonly from: Ruled<string>;
  readonly to?: Ruled<string>;
  /** How long records are to be kept [years]. */
  readonly recordsYears: Ruled<number>;
}

/** Inspections that follow where a leak rate was over its trigger. */
export interface InspectionDuty {
  readonly sectors: readonly Sector[];
  /** From this full charge on [lb]. */
  readonly fromLb: number;
  readonly everyMonths: number;
}

/** A rule on leak rates: over a trigger a leak is to be repaired, and the repair verified, in so many days. */
export interface LeakRateRule extends RuleSetHead {
  readonly kind: 'leak-rate';
  readonly refrigerants: Ruled<'ozone-depleting' | 'hydrofluorocarbons'>;
  /** Other substitutes are covered above this global warming potential; it has no say where ozone is meant. */
  readonly gwpOver?: Ruled<number>;
  readonly leastChargeLb: Ruled<number>;
  readonly excludedSectors: Ruled<readonly Sector[]>;
  /** Leak rate above which repair is due [ratio]. */
  readonly triggers: Ruled<Readonly<Record<Sector, number>>>;
  readonly repairDays: Ruled<number>;
  /** The same where an industrial process has to be shut down. */
  readonly shutdownRepairDays: Ruled<number>;
  readonly followUpDays: Ruled<number>;
  readonly planDays: Ruled<number>;
  /** The stricter ones first. */
  readonly inspections: Ruled<readonly InspectionDuty[]>;
  /** So much of the full charge added in a calendar year is to be reported [ratio]. */
  readonly chronicRatio: Ruled<number>;
  /** The day of the next year by which that is, MM-DD. */
  readonly chronicReportOn: Ruled<string>;
  /** Automatic leak detection, where it must be. */
  readonly detection?: Ruled<{
    readonly sectors: readonly Sector[];
    readonly fromLb: number;
    /** Installed from this day on: so many days after it. */
    readonly newFrom: string;
    readonly newDays: number;
    /** Installed from this day on, and before the other: by that day. */
    readonly olderFrom: string;
    readonly olderBy: string;
  }>;
  /** The first addition on which the rule has a say is taken over so many days, and none before that counts. */
  readonly firstAdditionDays?: Ruled<number>;
}

/** How often leaks are to be looked for, from so much on. */
export interface LeakCheckBand {
  readonly from: number;
  readonly everyMonths: number;
}

/** A rule on regular leak checks, by how much is in the appliance. */
export interface LeakCheckRule extends RuleSetHead {
  readonly kind: 'leak-check';
  readonly refrigerants: Ruled<'ozone-depleting' | 'fluorinated'>;
  /** By carbon dioxide equivalent [t], of what is neither of the following; the largest first. */
  readonly co2eBands?: Ruled<readonly LeakCheckBand[]>;
  /** By mass [kg]: of unsaturated substances, or of those that deplete ozone; the largest first. */
  readonly massBands: Ruled<readonly LeakCheckBand[]>;
  /** With a leak detection system the interval is so many times as long. */
  readonly detectionTimes?: Ruled<number>;
  /** From here on such a system must be [t of carbon dioxide equivalent]. */
  readonly detectionFromCo2eT?: Ruled<number>;
  /** Hermetically sealed and labelled ones need none below this [t of carbon dioxide equivalent; kg]. */
  readonly hermeticBelow?: Ruled<{ readonly co2eT: number; readonly massKg: number; readonly residentialKg: number }>;
  /** A repaired leak is to be checked again within so many months. */
  readonly recheckMonths?: Ruled<number>;
  /** A leak is to be repaired within so many days. */
  readonly repairDays?: Ruled<number>;
}

export type RuleSet = LeakRateRule | LeakCheckRule;
