import type { Random } from '../../numerics/random.ts';
import type { SimulatedJob } from '../job.ts';
import type { JobReadings } from '../job-log.ts';
import { reordered } from './changed-readings.ts';
import type { FaultKind } from './fault-kind.ts';
import { carryMarks, carriedMarks } from './mark-rows.ts';
import { readingColumnOf } from './reading-column.ts';
import {
  backFaults,
  clippedFaults,
  clockFaults,
  type Fault,
  gapFaults,
  stuckFaults,
  unitFaults,
} from './recording-faults.ts';

const isOfTimes = ({ columns }: Fault) => columns?.includes('elapsedS') === true;
/** Faults of each kind; those that only differ by what is on record of the gauge are left out. */
const kinds: Readonly<Record<FaultKind, readonly Fault[]>> = {
  'clock-ahead': clockFaults,
  'clock-back': backFaults,
  'left-out': gapFaults,
  hangs: stuckFaults,
  clipped: clippedFaults,
  unit: unitFaults.filter((fault) => !isOfTimes(fault) && fault.isWithoutGauge !== true),
  'time-unit': unitFaults.filter(isOfTimes),
};
/** How often each is tried first. Invented. */
const shares: Readonly<Record<FaultKind, number>> = {
  'clock-ahead': 0.15,
  'clock-back': 0.1,
  'left-out': 0.2,
  hangs: 0.2,
  clipped: 0.1,
  unit: 0.2,
  'time-unit': 0.05,
};

/** The job with something gone wrong with its log; undefined where nothing of the kind that is drawn can happen to it. */
export function withFault(job: SimulatedJob, random: Random): SimulatedJob | undefined {
  const { readings } = job;
  const kind = random.weighted(shares);
  if (readings === undefined) return undefined;
  const marked = carryMarks(readings, job);
  const left = [...kinds[kind]];
  while (left.length > 0) {
    const [fault] = left.splice(random.integer(0, left.length - 1), 1);
    const changed = fault.happens(marked, job);
    if (changed === undefined || isSame(changed, readings)) continue;
    return {
      ...job,
      ...carriedMarks(onceEach(changed), job),
      truth: {
        ...job.truth,
        recording_fault: fault.name,
        recording_fault_kind: kind,
        recording_fault_column: fault.columns?.map(readingColumnOf).join('+'),
      },
    };
  }
  return undefined;
}

/** Whether nothing is different: some faults lie beyond the end of a log. */
function isSame(changed: JobReadings, readings: JobReadings): boolean {
  return (Object.keys(readings) as (keyof JobReadings)[]).every((name) => {
    const [now, before] = [changed[name], readings[name]];
    return now?.length === before?.length && before?.every((value, row) => Object.is(value, now?.[row]));
  });
}

/** Of readings at one moment, as it is written, the first: a clock that was put back may come to the same moment again. */
function onceEach(readings: JobReadings): JobReadings {
  const written = readings.elapsedS.map((atS) => Math.round(atS * 1000));
  const rows = Array.from(written.keys()).filter((row) => row === 0 || written[row] > written[row - 1]);
  return rows.length === written.length ? readings : reordered(readings, rows, readings.elapsedS);
}
