import { Worker } from 'node:worker_threads';
import type { OwnerFigures } from '../pages/owner-data.ts';
import type { Store } from '../store/store.ts';
import { ownerData } from './owner-data.ts';
import type { OwnerAnswer, OwnerTask } from './owner-messages.ts';
import { received } from './sent-error.ts';

/** With fewer jobs a thread takes longer to start than the page takes. */
const fewestJobs = 50_000;

/** Where the owner's page is worked out: on another thread, or on this one when it is asked for. */
export type OwnerPlace = 'apart' | 'here';

/** Large stores are worth a thread; while a store is open to change it, nobody else can open it. */
export async function ownerPlace(store: Store): Promise<OwnerPlace> {
  const [{ jobs }] = await store.rows<{ jobs: number }>('SELECT count(*) AS jobs FROM jobs');
  return store.mode === 'read' && jobs >= fewestJobs ? 'apart' : 'here';
}

/**
 * Works out what the owner's page says on another thread, with the same store opened once more for reading, while this one goes on with
 * other pages.
 */
export class OwnerThread {
  readonly #here: () => Promise<OwnerFigures>;
  readonly #apart: Apart | undefined;

  constructor(store: Store, { codes }: { readonly codes: boolean }, place: OwnerPlace) {
    this.#here = () => ownerData(store, { codes });
    if (place === 'apart') this.#apart = started({ folder: store.folder, options: { codes } });
  }

  /**
   * @throws DryholdError as `ownerData`, and as `Store.open`
   */
  async data(): Promise<OwnerFigures> {
    return this.#apart?.data ?? this.#here();
  }

  /**
   * Ends the thread, whatever it is at, and lets go of its store. To be called when nothing more is read on this thread either: the lock on
   * a store is the whole process's, and goes when any of its threads closes the store.
   */
  async close(): Promise<void> {
    if (this.#apart === undefined) return;
    this.#apart.worker.postMessage('end');
    await this.#apart.gone;
  }
}

interface Apart {
  readonly worker: Worker;
  readonly data: Promise<OwnerFigures>;
  /** Once the thread is over. */
  readonly gone: Promise<void>;
}

function started(task: OwnerTask): Apart {
  const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
  const worker = new Worker(new URL(`owner-worker.${extension}`, import.meta.url), { workerData: task });
  const data = new Promise<OwnerFigures>((resolve, reject) => {
    worker.on('message', (answer: OwnerAnswer) => {
      if ('data' in answer) resolve(answer.data);
      else reject(received(answer));
    });
    worker.on('error', reject);
    worker.on('exit', () => reject(new Error('its thread is over')));
  });
  const gone = new Promise<void>((resolve) => worker.once('exit', () => resolve()));
  // Looked at by `data`; until then a refusal is nobody's.
  data.catch(() => undefined);
  return { worker, data, gone };
}
