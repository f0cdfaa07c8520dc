import type { SimulatedJob } from '../job.ts';
import type { JobReadings } from '../job-log.ts';

/** Readings with what is marked on each row: places in the job's marks and modes, -1 before the first. */
interface MarkedReadings extends JobReadings {
  readonly markRow: Float64Array;
  readonly modeRow: Float64Array;
}

type Marked = Pick<SimulatedJob, 'marks' | 'runModes'>;

/** The readings with the job's marks as columns, so that these go where the rows go. */
export function carryMarks(readings: JobReadings, { marks, runModes }: Marked): MarkedReadings {
  const places = (spans: readonly { readonly fromS: number }[]) => {
    let place = -1;
    return readings.elapsedS.map((atS) => {
      while (place + 1 < spans.length && spans[place + 1].fromS <= atS) place += 1;
      return place;
    });
  };
  return { ...readings, markRow: places(marks), modeRow: places(runModes) };
}

/** The readings and marks of rows that were changed, left out or put in another order. */
export function carriedMarks(
  changed: JobReadings,
  { marks, runModes }: Marked,
): Marked & Pick<SimulatedJob, 'readings'> {
  const { markRow, modeRow, ...readings } = changed as MarkedReadings;
  return {
    readings,
    marks: spansOf(readings.elapsedS, markRow).map(({ fromS, place }) => ({ fromS, mark: marks[place]?.mark ?? '' })),
    runModes: spansOf(readings.elapsedS, modeRow).map(({ fromS, place }) => ({ fromS, mode: runModes[place]?.mode })),
  };
}

function spansOf(elapsedS: Float64Array, placeRow: Float64Array): { fromS: number; place: number }[] {
  const spans: { fromS: number; place: number }[] = [];
  for (const [row, place] of placeRow.entries())
    if (place !== (row === 0 ? -1 : placeRow[row - 1])) spans.push({ fromS: elapsedS[row], place });
  return spans;
}
