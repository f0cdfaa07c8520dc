import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { JobMaterial, VacuumMaterial } from '../facts/job-material.ts';
import { vacuumFacts } from '../facts/vacuum-facts.ts';
import type { Facts } from '../records/tables/facts.ts';

/** A job's material with the facts of its vacuum log. */
export interface MeasuredMaterial {
  readonly material: JobMaterial;
  readonly vacuum: Partial<Facts>;
}

/** Readings that are handed over at once. */
const batchReadings = 50_000;
/** Batches that a thread may have waiting, so that it never runs dry. */
const batchesWaiting = 2;
/** Batches that may be under way in all: memory stays bounded. */
const batchesUnderWay = 8;

/**
 * Computes the vacuum facts of many jobs on all cores: batches go to the other threads while these have room, and are
 * computed here while they have none. Results come in the order of the jobs. The series of a job handed over are gone.
 *
 * @param threads other threads to use
 */
export async function* measuredMaterials(
  materials: AsyncIterable<JobMaterial>,
  threads = availableParallelism() - 1,
): AsyncGenerator<MeasuredMaterial> {
  const pool = Array.from({ length: threads }, () => new VacuumFactsThread());
  const underWay: { batch: JobMaterial[]; facts: Promise<Partial<Facts>[]> }[] = [];
  const hand = (batch: JobMaterial[]) => {
    const free = pool.find((thread) => thread.waiting < batchesWaiting);
    const facts = free === undefined ? Promise.resolve(batch.map(vacuumFacts)) : free.compute(batch);
    // A thread that fails is heard where its result is awaited.
    facts.catch(() => undefined);
    underWay.push({ batch, facts });
  };
  try {
    for await (const batch of batches(materials)) {
      hand(batch);
      if (underWay.length >= batchesUnderWay) yield* settled(underWay.shift());
    }
    while (underWay.length > 0) yield* settled(underWay.shift());
  } finally {
    await Promise.all(pool.map((thread) => thread.end()));
  }
}

async function* settled(
  done: { batch: JobMaterial[]; facts: Promise<Partial<Facts>[]> } | undefined,
): AsyncGenerator<MeasuredMaterial> {
  if (done === undefined) return;
  const facts = await done.facts;
  for (const [index, material] of done.batch.entries()) yield { material, vacuum: facts[index] };
}

async function* batches(materials: AsyncIterable<JobMaterial>): AsyncGenerator<JobMaterial[]> {
  let batch: JobMaterial[] = [];
  let readings = 0;
  for await (const material of materials) {
    batch.push(material);
    for (const { vacuumPa } of material.series) readings += vacuumPa.length;
    if (readings < batchReadings && batch.length < 1000) continue;
    yield batch;
    batch = [];
    readings = 0;
  }
  if (batch.length > 0) yield batch;
}

/** One other thread, started at its first batch; answers in the order of asking. */
class VacuumFactsThread {
  #worker: Worker | undefined;
  readonly #asked: { resolve: (facts: Partial<Facts>[]) => void; reject: (reason: unknown) => void }[] = [];

  get waiting(): number {
    return this.#asked.length;
  }

  compute(batch: readonly JobMaterial[]): Promise<Partial<Facts>[]> {
    this.#worker ??= this.#start();
    const message: VacuumMaterial[] = batch.map(({ job, gauge, series, marks }) => ({
      job: job && {
        gauge_id: job.gauge_id,
        vacuum_target_pa: job.vacuum_target_pa,
        gauge_accuracy_ratio: job.gauge_accuracy_ratio,
      },
      gauge,
      series,
      marks,
    }));
    const buffers = message.flatMap(({ series }) =>
      series.flatMap(({ elapsedS, vacuumPa }) => [elapsedS.buffer, vacuumPa.buffer]),
    );
    return new Promise((resolve, reject) => {
      this.#asked.push({ resolve, reject });
      this.#worker?.postMessage(message, buffers as ArrayBuffer[]);
    });
  }

  async end(): Promise<void> {
    await this.#worker?.terminate();
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`vacuum-facts-worker.${extension}`, import.meta.url));
    worker.on('message', (facts: Partial<Facts>[]) => this.#asked.shift()?.resolve(facts));
    worker.on('error', (error) => {
      for (const { reject } of this.#asked.splice(0)) reject(error);
    });
    return worker;
  }
}
