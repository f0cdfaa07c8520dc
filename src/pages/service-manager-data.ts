import type { Outcome } from '../checks/check.ts';
import type { FittedRise } from '../charts/fitted-rise.ts';
import type { PhaseSpan, VacuumLimit, VacuumStall, ValveOffRange } from '../charts/vacuum-recording.ts';
import type { UnitSystem } from '../units/display.ts';

/** All that the service manager's page says; the page computes nothing but shares. */
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
  /** Per check: its question and how many jobs had which outcome. */
  checks: CheckCount[];
  /** Per month (YYYY-MM) and crew: jobs that at least one check could judge, and those of them with a suspect or fail finding. */
  monthly: { month: string; crewId: string; judged: number; flagged: number }[];
  /** Per technician, the same counts with the 95 % Wilson interval of flagged/judged [ratio]. */
  technicians: TechnicianCount[];
  /** The last seven days of the data, ISO dates. */
  week: { from: string; to: string };
  /** That week's jobs with a fail or suspect finding, worst first. */
  lookAt: JobEvidence[];
  /** Such as how many jobs could not be judged, and why. */
  notes: string[];
  units: UnitSystem;
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

/** One job, what was found on it, and the recording that shows it. */
export interface JobEvidence {
  jobId: string;
  /** ISO 8601 with an offset. */
  startedAt: string;
  technician: string;
  crewId: string | null;
  systemId: string | null;
  siteId: string | null;
  refrigerant: string | null;
  workType: string | null;
  /** What happened, in paragraphs; empty where nothing was measured yet. */
  story: string[];
  findings: JobFinding[];
  /** Decimated to some 600 readings. */
  trace: { elapsedS: number[]; vacuumPa: (number | null)[]; over: boolean[] } | null;
  phases: PhaseSpan[];
  limits: VacuumLimit[];
  /** The isolation that was judged; null where none was. */
  isolation: PhaseSpan | null;
  /** What was fitted to it; null where nothing was. */
  fitted: FittedRise | null;
  /** Where the falling pressure stood; null where it did not. */
  stall: VacuumStall | null;
  /** Between which times the valve was shut, where that is not sharp; otherwise null. */
  valveOff: ValveOffRange | null;
}

export interface JobFinding {
  checkId: string;
  question: string;
  outcome: Outcome;
  /** What was found, in a sentence. */
  text: string;
  /** Where the limit comes from, in a sentence; empty where there is none. */
  basis: string;
  /** What a trainer would say. */
  teach: string;
}
