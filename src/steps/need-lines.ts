import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import { scaleRatio } from '../facts/charge/weigh-in.ts';
import type { NeedLine, OverchargedLine, Worth } from '../pages/accounts-data.ts';
import type { NeededCharged, OverchargedJob } from '../store/needed-charged.ts';
import type { PeopleNames } from './people-names.ts';
import type { Worths } from './worth.ts';

/** Rows of jobs that were judged, gathered into one line. */
export function needLine(id: string, name: string, rows: readonly NeededCharged[], worths: Worths): NeedLine {
  const sum = (of: (row: NeededCharged) => number) => rows.reduce((all, row) => all + of(row), 0);
  return {
    id,
    name,
    jobs: sum((row) => row.jobs),
    unsure: sum((row) => row.unsure),
    wantedKg: sum((row) => row.wanted_kg),
    chargedKg: sum((row) => row.charged_kg),
    overKg: sum((row) => row.over_kg),
    // A scale is off alike for all that it weighs.
    halfWidthKg: 1.96 * Math.hypot(Math.sqrt(sum((row) => row.variance)), scaleRatio * sum((row) => row.charged_kg)),
    surelyOver: sum((row) => row.surely_over),
    surelyOverKg: sum((row) => row.surely_over_kg),
    surelyUnder: sum((row) => row.surely_under),
    surelyUnderKg: sum((row) => row.surely_under_kg),
    over: worths.sum(rows.map((row): Worth => worths.of(accountedRefrigerant(row.refrigerant) ?? null, row.over_kg))),
  };
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
