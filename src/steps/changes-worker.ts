import { parentPort, workerData } from 'node:worker_threads';
import { skillChanges, type TimedJobs, type TimedSkill } from '../fleet/skill-changes.ts';

// The thread of `ChangesThread`: a skill in, its changes out, in the order of asking.
parentPort?.on('message', (skill: TimedSkill) =>
  parentPort?.postMessage(skillChanges(workerData as TimedJobs, [skill])),
);
