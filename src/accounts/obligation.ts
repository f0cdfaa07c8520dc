import type { RuleBasis } from './rules/rule-set.ts';

/** What a rule asks for. */
export type ObligationKind =
  | 'repair'
  | 'initial-verification'
  | 'follow-up-verification'
  | 'retrofit-or-retirement-plan'
  | 'inspection'
  | 'chronic-leak-report'
  | 'leak-detection'
  | 'leak-check'
  | 'recheck';

/** Where something that a rule asks for stands on a day. */
export type ObligationState = 'done' | 'done-late' | 'due' | 'overdue' | 'unknown';

/** Something that a rule asks for by a day. */
export interface Obligation {
  readonly kind: ObligationKind;
  readonly systemId: string;
  readonly ruleId: string;
  /** How the figure that sets the day is known. */
  readonly basis: RuleBasis;
  /** Since 1970; null where the record lacks what it counts from. */
  readonly dueDay: number | null;
  readonly doneDay: number | null;
  readonly state: ObligationState;
  /** The day that it follows from: an addition over the trigger, a verification, a check, an installation; null where none is on record. */
  readonly sinceDay: number | null;
  /** What the record lacks, where the state is unknown. */
  readonly lacks: string | null;
}

/** What is known of an obligation before its state is. */
export type ObligationTerms = Omit<Obligation, 'state' | 'doneDay' | 'lacks'> & {
  readonly doneDay?: number | null | undefined;
  readonly lacks?: string;
};

/**
 * The state of something due by a day.
 *
 * @param today the day on which it is asked
 */
export function obligation(terms: ObligationTerms, today: number): Obligation {
  const { dueDay, lacks = null } = terms;
  // What is done later than it is asked is not done yet.
  const asRecorded = terms.doneDay ?? null;
  const doneDay = asRecorded !== null && asRecorded <= today ? asRecorded : null;
  const state: ObligationState =
    doneDay !== null
      ? dueDay !== null && doneDay > dueDay
        ? 'done-late'
        : 'done'
      : dueDay === null
        ? 'unknown'
        : today <= dueDay
          ? 'due'
          : lacks === null
            ? 'overdue'
            : 'unknown';
  return { ...terms, doneDay, state, lacks: state === 'unknown' ? lacks : null };
}
