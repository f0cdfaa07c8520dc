/** A cylinder as on record; days since 1970, null is not on record. */
export interface CylinderRecord {
  readonly cylinderId: string;
  /** As accounted; null where none is named, or none that is known. */
  readonly refrigerant: string | null;
  readonly writtenRefrigerant: string | null;
  readonly kind: 'supply' | 'recovery';
  readonly acquiredDay: number | null;
  readonly netKg: number | null;
  readonly cost: number | null;
  readonly closedDay: number | null;
  readonly closingKg: number | null;
  readonly tareKg: number | null;
  readonly capacityKg: number | null;
}

/** A weighing of a cylinder. */
export interface CylinderWeighing {
  readonly weighingId: string;
  readonly day: number;
  /** Milliseconds since 1970. */
  readonly atMs: number;
  /** What the scale showed before and after, as written [kg]. */
  readonly startKg: number;
  readonly endKg: number;
  readonly stepKg: number;
  /** Whether it went into a system, or came out of one, as the record says. */
  readonly direction: 'in' | 'out';
  /** The same mass by another figure: the series of the scale, or the record of the job; below 0 what went in. Null where there is none. */
  readonly otherKg: number | null;
  readonly otherFrom: 'series' | 'record' | null;
  /** As accounted; null where the weighing names none. */
  readonly refrigerant: string | null;
  readonly jobId: string | null;
  readonly siteId: string | null;
  readonly technicianId: string | null;
  readonly crewId: string | null;
}

/** A weighing as it stands on record; null is not known. */
export interface RecordedWeighing {
  readonly weighingId: string;
  readonly writtenRefrigerant: string | null;
  readonly direction: 'in' | 'out' | null;
  readonly day: number | null;
  readonly atMs: number | null;
  readonly startKg: number | null;
  readonly endKg: number | null;
  /** Step of the scale; null where none is on record. */
  readonly stepKg: number | null;
  readonly otherKg: number | null;
  readonly otherFrom: 'series' | 'record';
  readonly jobId: string | null;
  readonly siteId: string | null;
  readonly technicianId: string | null;
  readonly crewId: string | null;
}

/** A cylinder and all of its weighings, in the order of time. */
export interface CylinderWithWeighings {
  /** Null for weighings that name no cylinder. */
  readonly cylinderId: string | null;
  /** Null where the cylinder is not on record. */
  readonly cylinder: CylinderRecord | null;
  readonly weighings: readonly RecordedWeighing[];
}
