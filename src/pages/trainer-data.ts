import type { SkillCell } from '../charts/skill-cell.ts';
import type { FunnelLimitRow } from '../charts/skill-funnel.ts';
import type { CoachReport } from './coach-data.ts';
import type { CoarseRows } from './coarse-rows.ts';
import type { FleetReport } from './fleet-data.ts';
import type { JobCells } from './service-manager-data.ts';

/** All that the trainer's page says, in one system of units. */
export interface TrainerData {
  readonly policyTitle: string;
  /** Of skills, by technician and crew. */
  readonly fleet: FleetReport;
  /** Of which the latest are told. */
  readonly trainingsOnRecord: number;
  /** Coaching sheets that have a page, by their file: who needs one most first. */
  readonly sheets: readonly { readonly file: string; readonly report: CoachReport }[];
  /** Technicians and crews with a judged job: all that could have a sheet. */
  readonly people: number;
  /** How many crews and technicians there are; in a large fleet not all are told apart. */
  readonly everyone: Pick<JobCells, 'crews' | 'technicians'>;
  /** What was found beside what was expected, by skill. */
  readonly skillCells: CoarseRows<SkillCell>;
  readonly funnelLimits: readonly FunnelLimitRow[];
  /** Technicians that the charts name, in their order: by what, and as which unit of `fleet`. */
  readonly technicians: readonly { readonly label: string; readonly id: string }[];
  readonly jobPages: ReadonlySet<string>;
}
