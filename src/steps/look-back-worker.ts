import { parentPort, workerData } from 'node:worker_threads';
import { lookBack, usualWindowDays } from '../fleet/callbacks/risk-record.ts';
import type { LookBackTask } from './look-back-thread.ts';

// The thread of `LookBackThread`: looks back once.
const { jobs, courses, period } = workerData as LookBackTask;
parentPort?.postMessage(lookBack(jobs, courses, period, usualWindowDays));
