import { parentPort, workerData } from 'node:worker_threads';
import type { VacuumMaterial } from '../../src/facts/job-material.ts';
import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import type { SliceTask } from '../../src/steps/slice-facts.ts';
import { readSlice } from '../../src/store/read-slice.ts';
import { SegmentReader } from '../../src/store/segment-reader.ts';

// A thread of `factsAlone`: takes its jobs into memory, then goes over all of them at every message.
const materials: VacuumMaterial[] = [];
const reader = await SegmentReader.begin();
for (const { slice, records } of workerData as SliceTask[]) {
  let next = 0;
  for await (const readings of readSlice(reader, slice)) materials.push({ ...records[next++], ...readings });
}
reader.close();
parentPort?.on('message', () => {
  let judged = 0;
  for (const material of materials) if (vacuumFacts(material).vacuum_readings !== undefined) judged += 1;
  parentPort?.postMessage(judged);
});
parentPort?.postMessage(materials.length);
