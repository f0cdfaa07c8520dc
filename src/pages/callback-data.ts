import type { CallbackCause, CauseTold } from '../fleet/callbacks/callback-cause.ts';
import type { CallbackFree } from '../fleet/callbacks/callback-free.ts';
import type { CallbackRisk } from '../fleet/callbacks/callback-risk.ts';
import type { Forerunner } from '../fleet/callbacks/forerunners.ts';
import type { Predictors } from '../fleet/callbacks/predictors.ts';
import type { Prevented } from '../fleet/callbacks/revisits.ts';
import type { RiskRecord } from '../fleet/callbacks/risk-record.ts';
import type { Skill } from '../fleet/skill.ts';
import type { FleetSummary, NamedUnit } from './fleet-data.ts';
import type { RevisitText } from './revisit-text.ts';

/** Which callbacks are counted, and since when. */
export interface CallbackSummary extends FleetSummary {
  /** Last day on which anything is on record, and the days over which callbacks are. */
  readonly lastDay: string;
  readonly onRecord: { readonly from: string; readonly to: string };
  /** How long after a job a callback is still laid to it. */
  readonly horizonDays: number;
  /** Callbacks on record; those that end the watch over a job: the first of each that its commissioning could have caused. */
  readonly callbacks: number;
  readonly counted: number;
  /** First ones of a job as well, but after a visit or other work on the circuit, or of a job that names no system. */
  readonly uncounted: number;
  /** Jobs, where none names a system: then nothing is watched. */
  readonly withoutSystem: number;
  /** Below so many counted callbacks nothing is said of what foretells them. */
  readonly fewest: number;
}

/** A skill or check as an output names it. */
export type NamedSkill = Pick<Skill, 'id' | 'title' | 'counts' | 'by'>;

/** What callbacks of one cause come to. */
export interface CauseTotals {
  readonly cause: CallbackCause;
  readonly callbacks: number;
  /** Sum of the costs, and of how many callbacks one is on record. */
  readonly cost: number;
  readonly costed: number;
  readonly refrigerantAddedKg: number;
  /** Days after the job, the middle one; null where none traces to a job. */
  readonly medianDays: number | null;
  /** What was found, or said, the most frequent first; with codes the words that told the cause. */
  readonly reasons: readonly { readonly text: string; readonly callbacks: number; readonly cost: number }[];
}

/** One callback, and the job that it traces to. */
export interface CallbackEntry {
  readonly callbackId: string;
  readonly reportedAt: string;
  readonly cause: CauseTold;
  /** What the customer said and what was found; null with codes, since it may name people. */
  readonly reason: string | null;
  readonly causeFound: string | null;
  readonly cost: number | null;
  readonly refrigerantAddedKg: number | null;
  readonly systemId: string | null;
  readonly tracedBy: 'job' | 'system' | 'not-named' | 'no-work-before' | 'beyond-horizon';
  readonly jobId: string | null;
  readonly daysAfter: number | null;
  readonly technician: NamedUnit | null;
  /** Whether an earlier one traces to the same job. */
  readonly isRepeat: boolean;
  /** Checks that flagged the job. */
  readonly findings: readonly string[];
}

/** A predictor beside callbacks, as an output names it. */
export interface ForerunnerReport extends Omit<Forerunner, 'predictor'> {
  readonly skill: NamedSkill;
  /** Of the jobs that were watched. */
  readonly found: number;
  readonly judged: number;
  readonly standsFor: readonly NamedSkill[];
}

/** Which callbacks trace where. */
export interface CallbackReport extends CallbackSummary {
  readonly traced: Readonly<Record<CallbackEntry['tracedBy'], number>>;
  readonly repeats: number;
  readonly causes: readonly CauseTotals[];
  readonly free: CallbackFree;
  readonly prevented: Prevented;
  readonly limit: number;
  /** Null where callbacks are too few, or nothing can be told. */
  readonly forerunners: {
    readonly by: Predictors['by'];
    readonly told: readonly ForerunnerReport[];
    readonly tooRare: readonly NamedSkill[];
    readonly beyond: readonly NamedSkill[];
  } | null;
  /** The latest first. */
  readonly entries: readonly CallbackEntry[];
}

/** A finding that raises the risk of a job. */
export interface RiskFinding {
  readonly checkId: string;
  readonly text: string;
  /** By how much what it belongs to multiplies the hazard. */
  readonly ratio: number;
}

/** An open job on the watch list. */
export interface WatchedJob {
  readonly jobId: string;
  readonly systemId: string | null;
  readonly siteId: string | null;
  readonly refrigerant: string | null;
  readonly technician: NamedUnit | null;
  readonly day: string;
  readonly ageDays: number;
  /** Within the window. */
  readonly risk: CallbackRisk;
  /** The risk over that of any job of its age. */
  readonly times: number;
  /** Two at most, those that raise it the most. */
  readonly findings: readonly RiskFinding[];
  /** What to check on site. */
  readonly onSite: readonly RevisitText[];
}

/** Which open jobs are likeliest to call back. */
export interface RiskReport extends CallbackSummary {
  readonly windowDays: number;
  readonly openJobs: number;
  /** Chance of a callback within the window over all open jobs, by their age alone [ratio]. */
  readonly baseRisk: number;
  readonly by: Predictors['by'] | null;
  /** What came of earlier lists; null where the record is too short to tell. */
  readonly record: RiskRecord | null;
  /** Why there is no list; null where there is one. */
  readonly noList: 'too-few' | 'no-better' | 'not-told' | null;
  /** Callbacks to be expected of all open jobs within the window. */
  readonly expected: number;
  /** The likeliest first. */
  readonly watchList: readonly WatchedJob[];
}
