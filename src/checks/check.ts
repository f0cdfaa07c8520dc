import type { z } from 'zod';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { ReferenceKey } from '../references.ts';

/** The flags of the QARTOD manuals: could not judge and no data are outcomes of their own, never a pass. */
export type Outcome = 'pass' | 'suspect' | 'fail' | 'not-evaluated' | 'missing';

export const outcomes: readonly Outcome[] = ['pass', 'suspect', 'fail', 'not-evaluated', 'missing'];

/** Gear that a job's record names. */
export type Gear = 'pump' | 'hose-set' | 'gauge' | 'scale';

export type CheckGroup = 'pressure-test' | 'evacuation' | 'rise' | 'charge' | 'run-test' | 'recording';

/** What to look for on a charged system, long after, where a check flagged its commissioning. */
export type RevisitKind = 'leak' | 'moisture' | 'charge' | 'running' | 'record';

/** Units of limits and of what is held against them; absent where it is a word or a ratio. */
export type FigureUnit = 'Pa' | 's' | 'kg' | 'K' | 'Pa/s' | 'kg/year';

/** A limit that a check holds something against. Defaults live here and nowhere else. */
export interface LimitSpec<Value extends number | string = number | string> {
  readonly description: string;
  readonly unit?: FigureUnit;
  readonly schema: z.ZodType<Value>;
  readonly default: Value;
  /** Where the default comes from. */
  readonly source: ReferenceKey;
  /** The column of the job's record that has this limit for the very job. */
  readonly recorded?: keyof Job;
}

/** A limit as it was used: its value, and whether the record, the policy's source or common practice gave it. */
export interface Limit<Value extends number | string = number | string> {
  readonly value: Value;
  readonly source: ReferenceKey | 'record';
}

export type LimitSpecs = Readonly<Record<string, LimitSpec>>;

/** The limits of a check, resolved. */
export type Limits<Specs extends LimitSpecs> = {
  readonly [Name in keyof Specs]: Limit<Specs[Name] extends LimitSpec<infer Value> ? Value : never>;
};

/** Figures and words that speak for an outcome; the unit of a figure is the suffix of its name. */
export type Evidence = Readonly<Record<string, number | string | undefined>>;

/** What a check says of one job. */
export interface Judgement<MessageId extends string = string> {
  readonly outcome: Outcome;
  readonly message: MessageId;
  /** What was measured and what it was held against, in `unit`. */
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: FigureUnit;
  readonly evidence: Evidence;
}

/** A worked example: facts in, outcome and message out; one shared test runs them all. */
export interface CheckExample<MessageId extends string = string> {
  readonly name: string;
  readonly facts: Partial<Facts>;
  /** Limits other than the defaults. */
  readonly limits?: Readonly<Record<string, number | string>>;
  readonly outcome: Outcome;
  readonly message: MessageId;
}

/** A check: data, and one function that never throws for what the facts are. */
export interface Check<Specs extends LimitSpecs = LimitSpecs, MessageId extends string = string> {
  readonly id: string;
  readonly group: CheckGroup;
  /** Present where it asks whether a test was made, and so that it could show something: counted apart from what tests showed. */
  readonly asks?: 'test-made';
  /** Gear that a crew may share whose fault the check would find, whoever uses it; absent for none. */
  readonly gear?: readonly Gear[];
  /** What to look for on a visit months after, where it flagged the job. */
  readonly revisit: RevisitKind;
  /** A sentence that a person would ask. */
  readonly question: string;
  /** The facts without which nothing can be said. */
  readonly needs: readonly (keyof Facts)[];
  readonly limits: Specs;
  /** Message id → template; `{name_pa}` is filled from the evidence, in the reader's units. */
  readonly messages: Readonly<Record<MessageId, string>>;
  /** What a trainer would say. */
  readonly teach: string;
  readonly references: readonly ReferenceKey[];
  readonly examples: readonly CheckExample<NoInfer<MessageId>>[];
  readonly judge: (facts: Partial<Facts>, limits: Limits<Specs>) => Judgement<NoInfer<MessageId>>;
}

/** Declares a check; ties the types of its limits and messages together. */
export function check<const Specs extends LimitSpecs, const MessageId extends string>(
  declared: Check<Specs, MessageId>,
): Check {
  return declared as unknown as Check;
}

/** Declares a limit, so that its value type is known. */
export function limit<Value extends number | string>(spec: LimitSpec<Value>): LimitSpec<Value> {
  return spec;
}
