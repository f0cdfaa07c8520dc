import type { PairedCurve, PairedQuantity } from '../charts/paired-trace.ts';
import type { Sureness } from '../fleet/coaching/coaching-topics.ts';
import type { CallbackRisk } from '../fleet/callbacks/callback-risk.ts';
import type { FleetSummary, NamedUnit, TrainingReport, UnitExcess } from './fleet-data.ts';
import type { ScaleEvidence } from './job-evidence-data.ts';

/** A job that shows what a topic is about. */
export interface TopicJob {
  readonly jobId: string;
  readonly day: string;
  readonly technician: NamedUnit | null;
  readonly checkId: string;
  readonly outcome: 'suspect' | 'fail' | 'missing';
  /** What was found, in the reader's units; empty where there is no log. */
  readonly text: string;
}

/** A recording of the one, beside that of a like job that went well. */
export interface TopicPair {
  readonly ownJobId: string;
  readonly goodJobId: string;
  readonly goodDay: string;
  readonly goodBy: NamedUnit | null;
  /** In what both are alike. */
  readonly alike: readonly string[];
  readonly shown:
    | {
        readonly quantity: PairedQuantity;
        readonly own: PairedCurve;
        readonly good: PairedCurve;
      }
    | { readonly quantity: 'charge'; readonly own: ScaleEvidence; readonly good: ScaleEvidence };
}

/** What to practise of a check. */
export interface TopicCheck {
  readonly checkId: string;
  readonly question: string;
  readonly teach: string;
}

/** A skill to work on. */
export interface CoachTopic extends UnitExcess {
  readonly sureness: Sureness;
  /** Found less expected [jobs]. */
  readonly excess: number;
  /** Crews and gear that it may come with, and that stand out in the same skill. */
  readonly sharedStandingOut: readonly NamedUnit[];
  readonly practise: readonly TopicCheck[];
  /** The latest that show it. */
  readonly jobs: readonly TopicJob[];
  readonly pair: TopicPair | null;
  /** Callbacks a year that would not come if as little were found as on others' jobs [count], and what they cost; null where that cannot be told. */
  readonly saves: { readonly callbacks: CallbackRisk; readonly cost: number | null } | null;
}

/** What to coach one technician, or one crew, on. */
export interface CoachReport extends FleetSummary {
  readonly who: NamedUnit;
  /** Judged jobs of theirs, and their days. */
  readonly ownJobs: number;
  readonly ownPeriod: { readonly from: string; readonly to: string };
  /** Of a crew: who did how many of its jobs. */
  readonly members: readonly { readonly technician: NamedUnit; readonly jobs: number }[];
  readonly topics: readonly CoachTopic[];
  readonly goingWell: readonly Pick<UnitExcess, 'skill' | 'rate'>[];
  readonly trainings: readonly TrainingReport[];
  /** Callbacks that what is saved is told by; below `fewest` nothing is. */
  readonly counted: number;
  readonly fewest: number;
}
