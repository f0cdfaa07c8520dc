import { Worker } from 'node:worker_threads';
import type { FleetJobs } from '../fleet/fleet-jobs.ts';
import { type SkillChange, skillChanges, type TimedJobs, type TimedSkill } from '../fleet/skill-changes.ts';

/** With fewer jobs a thread takes longer to start than the changes take. */
const fewestJobs = 50_000;

/**
 * Looks for the changes of skills on another thread, while this one goes on with the next skill; of small fleets here, at the end.
 */
export class ChangesThread {
  readonly #jobs: TimedJobs;
  readonly #worker: Worker | undefined;
  readonly #here: TimedSkill[] = [];
  readonly #found: Promise<SkillChange[]>[] = [];
  /** Answers come in the order of asking. */
  readonly #asked: { resolve: (changes: SkillChange[]) => void; reject: (reason: Error) => void }[] = [];

  constructor({ count, days, units: { technician, crew } }: FleetJobs) {
    this.#jobs = { count, days, units: { technician, crew } };
    if (count >= fewestJobs) this.#worker = this.#start();
  }

  ask({ skill, fleet, outcomes, chances }: TimedSkill): void {
    const timed = { skill, fleet, outcomes, chances };
    if (this.#worker === undefined) {
      this.#here.push(timed);
      return;
    }
    const found = new Promise<SkillChange[]>((resolve, reject) => this.#asked.push({ resolve, reject }));
    // Looked at by `changes`; until then a refusal is nobody's.
    found.catch(() => undefined);
    this.#found.push(found);
    this.#worker.postMessage(timed);
  }

  /** All changes, in the order of the jobs that set them off. */
  async changes(): Promise<SkillChange[]> {
    if (this.#worker === undefined) return skillChanges(this.#jobs, this.#here);
    return (await Promise.all(this.#found)).flat().sort((a, b) => a.at - b.at);
  }

  /** Ends the thread, whatever it is at. */
  async close(): Promise<void> {
    await this.#worker?.terminate();
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`changes-worker.${extension}`, import.meta.url), { workerData: this.#jobs });
    worker.on('message', (changes: SkillChange[]) => this.#asked.shift()?.resolve(changes));
    worker.on('error', (error: Error) => this.#refuse(error));
    worker.on('exit', () => this.#refuse(new Error('its thread is over')));
    return worker;
  }

  #refuse(reason: Error): void {
    for (const { reject } of this.#asked.splice(0)) reject(reason);
  }
}
