import type { Random } from '../../numerics/random.ts';
import type { SimulatedJob } from '../job.ts';
import type { JobReadings } from '../job-log.ts';
import { testGaugeOf } from '../test-gauges.ts';
import { compoundGauge, vacuumGauges } from '../vacuum-gauges.ts';
import { testPressureGauge, vacuumGauge } from './copied-gauge.ts';
import { type CopiedCurve, copyKinds, copyOf } from './copy-kinds.ts';
import { lentGauges } from './other-gauges.ts';
import { readingColumnOf } from './reading-column.ts';
import { joinedPieces, type LogPiece, rowsOf } from './log-pieces.ts';

/** A curve of the pool, from its first reading on. */
interface PooledCurve extends CopiedCurve {
  readonly lineC: Float64Array;
}

/** What somebody still has of a job. */
interface PooledJob {
  readonly jobId: string;
  readonly gaugeId: string | undefined;
  readonly testPa: PooledCurve | undefined;
  /** Up to the end of the rise test. */
  readonly vacuumPa: PooledCurve | undefined;
}

type Copied = 'testPa' | 'vacuumPa';

/** Of how many jobs each technician has the logs at hand. */
const KEPT = 4;
/** Fewer readings are no curve worth handing in. */
const FEWEST = 60;
/** Who shifts a copy in time begins so much later [s]. */
const SHIFT_S = [60, 900] as const;

const round = (seconds: number) => Math.round(seconds * 10) / 10;

/** The latest logs of each technician, to be handed in once more with another job. */
export class CopyPool {
  readonly #jobs = new Map<string, PooledJob[]>();

  /** Keeps the job's curves at hand, in the place of the oldest. */
  add({ job, truth, readings }: SimulatedJob): void {
    if (readings === undefined || job.technician_id === undefined) return;
    const { technician_id: technicianId, gauge_id: gaugeId, job_id: jobId } = job;
    const { testRows, riseEnd } = sectionsOf(readings, truth);
    const gauge = [...vacuumGauges, compoundGauge, ...lentGauges].find((one) => one.gaugeId === gaugeId);
    const one: PooledJob = {
      jobId,
      gaugeId,
      testPa: pooled(readings, 'testPa', 0, testRows, testPressureGauge(testGaugeOf(technicianId, 0))),
      vacuumPa:
        gauge && riseEnd !== undefined
          ? pooled(readings, 'vacuumPa', testRows, riseEnd, vacuumGauge(gauge))
          : undefined,
    };
    if (one.testPa === undefined && one.vacuumPa === undefined) return;
    const own = this.#jobs.get(technicianId) ?? [];
    this.#jobs.set(technicianId, [...own.slice(1 - KEPT), one]);
  }

  /** The job with curves of an earlier one in the place of its own; undefined where none fits into its time. */
  copiedInto(job: SimulatedJob, random: Random): SimulatedJob | undefined {
    const kind = random.choice(Object.keys(copyKinds));
    const wanted = random.choice<readonly Copied[]>([['vacuumPa'], ['vacuumPa'], ['testPa'], ['testPa', 'vacuumPa']]);
    const { readings, job: record } = job;
    const pool = this.#jobs.get(record.technician_id ?? '') ?? [];
    if (readings === undefined) return undefined;
    const roomS = (Date.parse(record.ended_at ?? '') - Date.parse(record.started_at)) / 1000;
    for (const donor of pool.toReversed()) {
      const fits = donor.gaugeId === record.gauge_id || !wanted.includes('vacuumPa');
      if (!fits || wanted.some((name) => donor[name] === undefined)) continue;
      const changed = handedIn(job, readings, wanted, (name) => copied(donor[name] as PooledCurve, kind, random));
      if (changed === undefined || (changed.readings?.elapsedS.at(-1) ?? 0) > roomS) continue;
      return {
        ...changed,
        truth: {
          ...changed.truth,
          copied_from_job_id: donor.jobId,
          copy_kind: kind,
          copied_columns: wanted.map(readingColumnOf).join('+'),
        },
      };
    }
    return undefined;
  }
}

/** How many rows the pressure test has, and the row after the last of the rise test. */
function sectionsOf({ elapsedS, testPa, scaleKg }: JobReadings, truth: SimulatedJob['truth']) {
  const testRows = testPa.findLastIndex((pa) => !Number.isNaN(pa)) + 1;
  const startS = truth.run_start_s ?? Number.POSITIVE_INFINITY;
  const runFrom = rowAt(elapsedS, startS);
  const weighed = scaleKg.some((kg) => !Number.isNaN(kg));
  // Without a rise test the log ends as it ends; where something was weighed, nobody can say from when on it is kept.
  const endS = truth.isolation_end_s;
  const riseEnd = endS === undefined ? (weighed ? undefined : runFrom) : rowAt(elapsedS, endS + 0.05);
  return { testRows, riseEnd: riseEnd !== undefined && riseEnd > testRows ? riseEnd : undefined };
}

/** The first row at that time or later. */
function rowAt(elapsedS: Float64Array, atS: number): number {
  const row = elapsedS.findIndex((one) => one >= atS);
  return row < 0 ? elapsedS.length : row;
}

function pooled(
  readings: JobReadings,
  name: Copied,
  from: number,
  to: number,
  by: CopiedCurve['by'],
): PooledCurve | undefined {
  if (to - from < FEWEST) return undefined;
  const startS = readings.elapsedS[from];
  return {
    elapsedS: readings.elapsedS.slice(from, to).map((atS) => round(atS - startS)),
    pa: readings[name].slice(from, to),
    lineC: readings.lineC.slice(from, to),
    by,
  };
}

/** A copy that begins at 0, or some minutes later where somebody shifts it in time. */
function copied(curve: PooledCurve, kind: string, random: Random): PooledCurve {
  const copy = copyOf(curve, kind, random);
  const shiftS = kind.includes('shifted') || kind === 'all of it' ? random.uniform(...SHIFT_S) : 0;
  const startS = copy.elapsedS[0];
  return { ...copy, elapsedS: copy.elapsedS.map((atS) => round(atS - startS + shiftS)) };
}

/** The job with those curves in the place of its own; what comes later moves along, and the source's marks are gone. */
function handedIn(
  job: SimulatedJob,
  readings: JobReadings,
  names: readonly Copied[],
  copyFor: (name: Copied) => PooledCurve,
): SimulatedJob | undefined {
  const { testRows, riseEnd } = sectionsOf(readings, job.truth);
  const { elapsedS } = readings;
  const ends = { testPa: testRows, vacuumPa: riseEnd ?? testRows };
  if (names.some((name) => ends[name] === (name === 'testPa' ? 0 : testRows))) return undefined;
  const pieces: LogPiece[] = [];
  let laterS = 0;
  const laterBefore = { vacuum: 0, run: 0 };
  for (const name of ['testPa', 'vacuumPa'] as const) {
    const from = name === 'testPa' ? 0 : testRows;
    if (name === 'vacuumPa') laterBefore.vacuum = laterS;
    if (!names.includes(name)) {
      pieces.push(rowsOf(readings, from, ends[name], laterS));
      continue;
    }
    const copy = copyFor(name);
    const startS = elapsedS[from] + laterS;
    pieces.push({
      elapsedS: copy.elapsedS.map((atS) => round(atS + startS)),
      columns: { [name]: copy.pa, lineC: copy.lineC },
    });
    laterS = round(startS + (copy.elapsedS.at(-1) ?? 0) - elapsedS[ends[name] - 1]);
  }
  pieces.push(rowsOf(readings, ends.vacuumPa, elapsedS.length, laterS));
  laterBefore.run = laterS;
  const moved = (atS: number | undefined, byS: number) => (atS === undefined ? undefined : round(atS + byS));
  const { truth } = job;
  const isVacuum = names.includes('vacuumPa');
  const isTest = names.includes('testPa');
  return {
    ...job,
    readings: joinedPieces(readings, pieces),
    marks: [],
    runModes: job.runModes.map((one) => ({ ...one, fromS: round(one.fromS + laterBefore.run) })),
    truth: {
      ...truth,
      isolation_start_s: isVacuum ? undefined : moved(truth.isolation_start_s, laterBefore.vacuum),
      isolation_end_s: isVacuum ? undefined : moved(truth.isolation_end_s, laterBefore.vacuum),
      pressure_hold_start_s: isTest ? undefined : truth.pressure_hold_start_s,
      pressure_hold_end_s: isTest ? undefined : truth.pressure_hold_end_s,
      run_start_s: moved(truth.run_start_s, laterBefore.run),
      steady_start_s: moved(truth.steady_start_s, laterBefore.run),
      steady_end_s: moved(truth.steady_end_s, laterBefore.run),
    },
  };
}
