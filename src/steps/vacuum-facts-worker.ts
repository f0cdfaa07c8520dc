import { parentPort } from 'node:worker_threads';
import { vacuumFacts } from '../facts/vacuum-facts.ts';
import type { VacuumMaterial } from '../facts/job-material.ts';

// A thread of `VacuumFactsPool`: batches of material in, as many facts out.
parentPort?.on('message', (batch: VacuumMaterial[]) => parentPort?.postMessage(batch.map(vacuumFacts)));
