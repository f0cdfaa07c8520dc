import type { Policy } from '../../checks/policy.ts';
import type { JobRecords } from '../../facts/job-material.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import type { SegmentSlice } from '../../store/segment-slices.ts';
import type { SentError } from '../sent-error.ts';

/** Jobs that are judged together, and where what is found of them goes; plain data, so that it can go to another thread. */
export interface PartTask {
  /** An empty folder that is there. */
  readonly folder: string;
  /** Jobs with readings: a slice of readings, and the records of its jobs in the same order. */
  readonly slices: readonly { readonly slice: SegmentSlice; readonly records: readonly JobRecords[] }[];
  /** Jobs without. */
  readonly unread: readonly JobRecords[];
  /** Jobs whose facts stand. */
  readonly standing: readonly { readonly facts: Facts; readonly job: Job | undefined }[];
}

/** What a thread begins with. */
export interface PartSettings {
  readonly policy: Policy;
  /** Where this process keeps what was compiled once; absent where it does not. */
  readonly compileCache?: string | undefined;
}

/** To a thread of `PartThreads`. */
export type Request = PartTask | 'end';

/** From a thread of `PartThreads`: `done`, or what went wrong. */
export type Answer = 'done' | SentError;
