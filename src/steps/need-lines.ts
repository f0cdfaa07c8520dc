import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import { scaleRatio } from '../facts/charge/weigh-in.ts';
import type { NeedLine, OverchargedLine, Worth } from '../pages/accounts-data.ts';
import type { NeededCharged, OverchargedJob } from '../store/needed-charged.ts';
import type { PeopleNames } from './people-names.ts';
import type { Worths } from './worth.ts';

/** Rows of jobs that were judged, gathered into one line. */
export function needLine(id: string, name: string, rows: readonly NeededCharged[], worths: Worths): NeedLine {
  const sums = Object.fromEntries(summed.map((column) => [column, sumOf(rows, column)])) as Record<Summed, number>;
  return {
    id,
    name,
    jobs: sums.jobs,
    unsure: sums.unsure,
    wantedKg: sums.wanted_kg,
    chargedKg: sums.charged_kg,
    overKg: sums.over_kg,
    // A scale is off alike for all that it weighs.
    halfWidthKg: 1.96 * Math.hypot(Math.sqrt(sums.variance), scaleRatio * sums.charged_kg),
    surelyOver: sums.surely_over,
    surelyOverKg: sums.surely_over_kg,
    surelyUnder: sums.surely_under,
    surelyUnderKg: sums.surely_under_kg,
    over: worths.sum(rows.map((row): Worth => worths.of(accountedRefrigerant(row.refrigerant) ?? null, row.over_kg))),
  };
}

const summed = [
  'jobs',
  'unsure',
  'wanted_kg',
  'charged_kg',
  'over_kg',
  'variance',
  'surely_over',
  'surely_over_kg',
  'surely_under',
  'surely_under_kg',
] as const;

type Summed = (typeof summed)[number];

function sumOf(rows: readonly NeededCharged[], column: Summed): number {
  let sum = 0;
  for (const row of rows) sum += row[column];
  return sum;
}

/** The same rows gathered by a column. */
export function needLinesBy(
  rows: readonly NeededCharged[],
  idOf: (row: NeededCharged) => string,
  nameOf: (id: string) => string,
  worths: Worths,
): NeedLine[] {
  return [...Map.groupBy(rows, idOf)].map(([id, own]) => needLine(id, nameOf(id), own, worths));
}

/** A job that put in surely more than it should have, as it is told. */
export function overchargedLine(job: OverchargedJob, names: PeopleNames, worths: Worths): OverchargedLine {
  return {
    jobId: job.job_id,
    day: job.started_at.slice(0, 10),
    technician: names.technician(job.technician_id),
    refrigerant: job.refrigerant,
    wantedKg: job.charge_wanted_kg,
    chargedKg: job.charged_kg,
    overKg: job.charge_deviation_kg,
    lowKg: job.charge_deviation_low_kg,
    highKg: job.charge_deviation_high_kg,
    slip: job.charge_slip,
    over: worths.of(accountedRefrigerant(job.refrigerant) ?? null, job.charge_deviation_kg),
  };
}
