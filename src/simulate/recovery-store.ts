import { Random } from '../numerics/random.ts';
import type { Cylinder } from '../records/tables/cylinders.ts';
import { dateOfDay, instantOfDay } from './calendar.ts';
import type { CylinderTruth } from './cylinder-truth.ts';
import type { Refrigerant } from './line-adders.ts';

/** What a job recovers. */
export interface Recovery {
  readonly technicianId: string;
  readonly refrigerant: Refrigerant;
  /** In whole steps of the crew's scale [kg]. */
  readonly kg: number;
  readonly weighingId: string;
  /** When it would be weighed, and the latest that it can be [days]. */
  readonly day: number;
  readonly latestDay: number;
}

/** What is written down of it [kg]. */
export interface RecoveryEntry {
  readonly cylinderId: string;
  readonly startKg: number;
  readonly endKg: number;
  /** When it was weighed, after the weighing before [days]. */
  readonly day: number;
}

interface OpenRecovery {
  readonly cylinderId: string;
  readonly tareKg: number;
  /** It is closed once it holds so much [kg]. */
  readonly fullKg: number;
  /** What it never holds more of [kg]. */
  readonly mostKg: number;
  heldKg: number;
  lastWeighedDay: number;
}

/** What a recovery cylinder may hold, a fill of 80 % [kg]: invented. */
const CAPACITY_KG = 11;
/** Where a technician takes the next one, as a share of the capacity: invented. */
const FULL_RATIO = [0.7, 0.95] as const;
/** Share of those that a technician would fill on until they hold too much, and how much that is at most: invented. */
const OVERFILLED_SHARE = 0.04;
const OVERFILLED_RATIO = 1.15;
/** Tares come in steps that every crew's scale shows [kg]. */
const TARE_STEP_KG = 0.02;
const APART_DAYS = 1 / 1440;
/** Numbers of its own for every cylinder, apart from those of the jobs. */
const STREAM = -1_400_000_000;

/** The recovery cylinders in the technicians’ vans: one open per technician and refrigerant. */
export class RecoveryStore {
  readonly #seed: number;
  readonly #planted: CylinderTruth[];
  readonly #open = new Map<string, OpenRecovery>();
  readonly #rows = new Map<string, Cylinder>();

  /** @param planted where the overfilled ones are written down as they come */
  constructor(seed: number, planted: CylinderTruth[]) {
    this.#seed = seed;
    this.#planted = planted;
  }

  /** Takes in what a job recovers; the scale rises by it. */
  put({ technicianId, refrigerant, kg, weighingId, day, latestDay }: Recovery): RecoveryEntry {
    const key = `${technicianId} ${refrigerant}`;
    let open = this.#open.get(key);
    if (open !== undefined && open.heldKg + kg > open.mostKg) {
      this.#close(open, day);
      open = undefined;
    }
    open ??= this.#fresh(refrigerant, day);
    this.#open.set(key, open);
    const atDay = Math.min(latestDay, Math.max(day, open.lastWeighedDay + APART_DAYS));
    const startKg = toGram(open.tareKg + open.heldKg);
    open.heldKg = toGram(open.heldKg + kg);
    open.lastWeighedDay = atDay;
    if (open.heldKg > CAPACITY_KG)
      this.#planted.push({
        cylinder_id: open.cylinderId,
        kind: 'overfilled',
        at: instantOfDay(atDay),
        weighing_id: weighingId,
        kg: toGram(open.heldKg - CAPACITY_KG),
      });
    if (open.heldKg >= open.fullKg) {
      this.#close(open, atDay);
      this.#open.delete(key);
    }
    return { cylinderId: open.cylinderId, startKg, endKg: toGram(open.tareKg + open.heldKg), day: atDay };
  }

  /** The open cylinders of that refrigerant that are in other vans. */
  elsewhere(technicianId: string, refrigerant: Refrigerant): string[] {
    return [...this.#open].flatMap(([key, { cylinderId }]) =>
      key !== `${technicianId} ${refrigerant}` && key.endsWith(` ${refrigerant}`) ? [cylinderId] : [],
    );
  }

  /** Every recovery cylinder so far. */
  rows(): Cylinder[] {
    return [...this.#rows.values()];
  }

  #fresh(refrigerant: Refrigerant, day: number): OpenRecovery {
    const number = this.#rows.size + 1;
    const random = new Random(this.#seed, STREAM - number);
    const cylinderId = `recovery-${String(number).padStart(5, '0')}`;
    const tareKg = toGram(Math.round(random.uniform(5.2, 6.4) / TARE_STEP_KG) * TARE_STEP_KG);
    const isOverfilled = random.chance(OVERFILLED_SHARE);
    this.#rows.set(cylinderId, {
      cylinder_id: cylinderId,
      refrigerant,
      acquired_on: dateOfDay(Math.max(0, day - random.integer(1, 30))),
      net_kg: 0,
      kind: 'recovery',
      tare_kg: tareKg,
      capacity_kg: CAPACITY_KG,
    });
    return {
      cylinderId,
      tareKg,
      fullKg: isOverfilled ? CAPACITY_KG + 0.001 : CAPACITY_KG * random.uniform(...FULL_RATIO),
      mostKg: isOverfilled ? CAPACITY_KG * OVERFILLED_RATIO : CAPACITY_KG,
      heldKg: 0,
      lastWeighedDay: Number.NEGATIVE_INFINITY,
    };
  }

  #close(open: OpenRecovery, day: number): void {
    const row = this.#rows.get(open.cylinderId);
    if (row === undefined) return;
    this.#rows.set(open.cylinderId, { ...row, closed_on: dateOfDay(day), closing_kg: open.heldKg });
  }
}

function toGram(kg: number): number {
  return Math.round(kg * 1000) / 1000;
}
