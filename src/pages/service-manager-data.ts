import type { LifeTableRow } from '../charts/called-back-by-age.ts';
import type { LimitPoint } from '../charts/limit-margins.ts';
import type { JobCell } from '../charts/flagged-by-month.ts';
import type { CallbackReport, RiskReport } from './callback-data.ts';
import type { CoarseRows } from './coarse-rows.ts';
import type { SendBack } from './send-back.ts';
import type { JobEvidence } from './job-evidence-data.ts';

/** All that the service manager's page says, in one system of units; the page computes nothing but shares. */
export interface ServiceManagerData {
  policyId: string;
  policyTitle: string;
  /** First and last day of the data, ISO dates. */
  period: { from: string; to: string };
  jobs: number;
  /** Jobs that at least one check could judge. */
  jobsJudged: number;
  /** Jobs of those with a suspect or fail finding. */
  jobsFlagged: number;
  /** Whom to send back where, the most pressing first. */
  sendBack: readonly SendBack[];
  /** How many ask for a visit in all. */
  sendBackOf: number;
  week: WeekFigures;
  /** Jobs of that week with a fail or suspect finding, worst first: some of the week's `jobsFlagged`. */
  lookAt: readonly JobEvidence[];
  callbacks: CallbackReport;
  risk: RiskReport;
  /** Per check: its question and how many jobs had which outcome. */
  checks: CheckCount[];
  /** Judged jobs by month, crew, technician and refrigerant, as the charts count them. */
  cells: JobCells;
  /** Per technician with the 95 % Wilson interval of flagged/judged [ratio]. */
  technicians: TechnicianCount[];
  /** How jobs were watched until a callback, by steps of their age. */
  lifeTable: CoarseRows<LifeTableRow>;
  /** How far each job ended from its own limit: some of so many, of which so many were flagged. */
  limitPoints: { rows: readonly LimitPoint[]; of: number; flagged: number };
  /** Such as how many jobs could not be judged, and why. */
  notes: string[];
  /** Jobs that have a page of their own. */
  jobPages: ReadonlySet<string>;
}

/** Counts of judged jobs, and who is told apart in them. */
export interface JobCells extends CoarseRows<JobCell & { readonly jobs: number }> {
  /** All there are; in a large fleet only those who need coaching most and those with the most jobs are told apart. */
  readonly crews: number;
  readonly technicians: number;
}

/** What a week came to, beside the four weeks before it, as far as the record goes back. */
export interface WeekFigures {
  /** ISO dates. */
  readonly from: string;
  readonly to: string;
  readonly jobs: number;
  readonly jobsJudged: number;
  readonly jobsFlagged: number;
  /** Of the four weeks before, and how many days of them are on record. */
  readonly before: {
    readonly days: number;
    readonly jobs: number;
    readonly jobsJudged: number;
    readonly jobsFlagged: number;
  };
  /** Per check, in the order of the checks. */
  readonly checks: readonly { readonly checkId: string; readonly found: number; readonly judged: number }[];
  /** Callbacks reported in the week, and those of them that commissioning probably caused. */
  readonly callbacks: number;
  readonly callbacksOfCommissioning: number;
  /** Refrigerant that was charged in the week by what the jobs logged or wrote down [kg], and on how many jobs. */
  readonly chargedKg: number;
  readonly chargedJobs: number;
}

export interface CheckCount {
  checkId: string;
  question: string;
  pass: number;
  suspect: number;
  fail: number;
  notEvaluated: number;
  missing: number;
}

export interface TechnicianCount {
  technicianId: string;
  name: string;
  crewId: string | null;
  judged: number;
  flagged: number;
  low: number;
  high: number;
  notJudged: number;
}
