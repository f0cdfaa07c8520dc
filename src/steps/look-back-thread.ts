import { Worker } from 'node:worker_threads';
import type { JobCourses, WatchedPeriod } from '../fleet/callbacks/follow-up.ts';
import { lookBack, type RiskRecord, usualWindowDays } from '../fleet/callbacks/risk-record.ts';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import type { OpenCallbacks } from './open-callbacks.ts';

/** With fewer jobs a thread takes longer to start than the look back takes. */
const fewestJobs = 50_000;

/** What the look back rests on. */
export interface LookBackTask {
  readonly jobs: FleetJobs;
  readonly courses: JobCourses;
  readonly period: WatchedPeriod;
}

/** Holds earlier lists against what came, over the usual window: on another thread while this one goes on; of small fleets here, when it is asked for. */
export class LookBackThread {
  readonly #task: LookBackTask;
  readonly #worker: Worker | undefined;
  readonly #apart: Promise<RiskRecord | undefined> | undefined;

  constructor({ fleet: { jobs }, courses, period }: OpenCallbacks) {
    this.#task = { jobs, courses, period };
    if (jobs.count < fewestJobs) return;
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`look-back-worker.${extension}`, import.meta.url), { workerData: this.#task });
    this.#worker = worker;
    this.#apart = new Promise((resolve, reject) => {
      worker.on('message', resolve);
      worker.on('error', reject);
      worker.on('exit', () => reject(new Error('its thread is over')));
    });
    // Looked at by `record`; until then a refusal is nobody's.
    this.#apart.catch(() => undefined);
  }

  async record(): Promise<RiskRecord | undefined> {
    const { jobs, courses, period } = this.#task;
    return this.#apart ?? lookBack(jobs, courses, period, usualWindowDays);
  }

  /** Ends the thread, whatever it is at. */
  async close(): Promise<void> {
    await this.#worker?.terminate();
  }
}
