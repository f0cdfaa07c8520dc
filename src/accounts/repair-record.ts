/** A repair as on record; days since 1970, null is not on record. */
export interface RepairRecord {
  readonly leakId: string | null;
  readonly foundDay: number | null;
  readonly repairedDay: number | null;
  readonly initialDay: number | null;
  readonly followUpDay: number | null;
  readonly operationDay: number | null;
  readonly isShutdown: boolean | null;
  readonly cost: number | null;
}

/**
 * Repairs as they were known on a day: what is dated later is not known yet.
 *
 * A repair whose own day is not on record was done by the day on which it was verified.
 *
 * @param today since 1970
 */
export function repairsKnown(repairs: readonly RepairRecord[], today: number): RepairRecord[] {
  const by = (day: number | null) => (day !== null && day <= today ? day : null);
  return repairs.map((repair) => ({
    ...repair,
    foundDay: by(repair.foundDay),
    repairedDay: by(repair.repairedDay ?? repair.initialDay ?? repair.followUpDay),
    initialDay: by(repair.initialDay),
    followUpDay: by(repair.followUpDay),
    operationDay: by(repair.operationDay),
  }));
}
