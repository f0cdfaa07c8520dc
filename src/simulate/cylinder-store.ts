import type { Cylinder } from '../records/tables/cylinders.ts';
import { dateOfDay, instantOfDay } from './calendar.ts';
import { type CylinderLoss, drawCylinderLoss, lossOf } from './cylinder-loss.ts';
import type { CylinderTruth } from './cylinder-truth.ts';
import type { Refrigerant } from './line-adders.ts';

/** A cylinder in use. */
export interface OpenCylinder {
  readonly cylinderId: string;
  readonly tareKg: number;
  leftKg: number;
}

/** With what the store keeps of it. */
interface StoredCylinder extends OpenCylinder {
  /** Undefined where none is planted, or it has happened. */
  loss: CylinderLoss | undefined;
  uses: number;
  lastWeighedDay: number;
}

const NET_KG = 11.34;
const TARE_KG = 3.6;
/** The shop's price of a kilogram; invented. */
const COST_PER_KG: Record<Refrigerant, number> = { 'R-410A': 22, 'R-32': 16, 'R-454B': 38, 'R-407C': 24 };

/** The cylinders in the technicians’ vans: one open per technician and refrigerant, the next one bought when it cannot give what is asked. */
export class CylinderStore {
  readonly #seed: number;
  readonly #planted: CylinderTruth[];
  readonly #open = new Map<string, StoredCylinder>();
  readonly #rows = new Map<string, Cylinder>();
  /** Closed by a job that is still going on. */
  readonly #closing = new Map<string, string>();

  /** @param planted where the losses are written down as they happen */
  constructor(seed: number, planted: CylinderTruth[]) {
    this.#seed = seed;
    this.#planted = planted;
  }

  /** A cylinder that still holds `massKg`; masses above a full cylinder get one of their own, larger. */
  take(technicianId: string, refrigerant: Refrigerant, massKg: number, day: number): OpenCylinder {
    const key = keyOf(technicianId, refrigerant);
    const open = this.#open.get(key);
    if (open !== undefined && open.leftKg - massKg > 0.15) return open;
    if (open !== undefined) this.#close(key, open, day);
    const number = this.#rows.size + 1;
    const cylinderId = `cylinder-${String(number).padStart(5, '0')}`;
    const netKg = NET_KG * Math.ceil((massKg + 0.2) / NET_KG);
    this.#rows.set(cylinderId, {
      cylinder_id: cylinderId,
      refrigerant,
      acquired_on: dateOfDay(Math.max(0, day - 3)),
      net_kg: round(netKg),
      cost: round(netKg * COST_PER_KG[refrigerant]),
      kind: 'supply',
      tare_kg: TARE_KG,
      capacity_kg: round(netKg),
    });
    const loss = drawCylinderLoss(this.#seed, number);
    const fresh = { cylinderId, tareKg: TARE_KG, leftKg: netKg, loss, uses: 0, lastWeighedDay: day };
    this.#open.set(key, fresh);
    return fresh;
  }

  /** The open cylinder where it cannot give `massKg` but holds enough to begin with. */
  runningOut(technicianId: string, refrigerant: Refrigerant, massKg: number): OpenCylinder | undefined {
    const open = this.#open.get(keyOf(technicianId, refrigerant));
    return open !== undefined && open.leftKg - massKg <= 0.15 && open.leftKg > 0.2 ? open : undefined;
  }

  /** Lets the open cylinder lose what it is to lose, where it stood unweighed until then; before a job takes from it. */
  stand(technicianId: string, refrigerant: Refrigerant, untilDay: number): void {
    const open = this.#open.get(keyOf(technicianId, refrigerant));
    if (open?.loss === undefined || open.uses < open.loss.afterUses || open.lastWeighedDay >= untilDay) return;
    const lostKg = lossOf(open.loss, open.leftKg);
    if (lostKg === undefined) return;
    const atDay = open.lastWeighedDay + open.loss.atRatio * (untilDay - open.lastWeighedDay);
    this.#planted.push({ cylinder_id: open.cylinderId, kind: 'lost', at: instantOfDay(atDay), kg: lostKg });
    open.leftKg -= lostKg;
    open.loss = undefined;
  }

  /** Says when a job has weighed the open cylinder last; one that it changed in mid-charge is closed no earlier. */
  weighed(technicianId: string, refrigerant: Refrigerant, day: number): void {
    const open = this.#open.get(keyOf(technicianId, refrigerant));
    const closed = this.#rows.get(this.#closing.get(keyOf(technicianId, refrigerant)) ?? '');
    if (closed?.closed_on !== undefined && closed.closed_on < dateOfDay(day))
      this.#rows.set(closed.cylinder_id, { ...closed, closed_on: dateOfDay(day) });
    this.#closing.delete(keyOf(technicianId, refrigerant));
    if (open === undefined) return;
    open.uses++;
    open.lastWeighedDay = Math.max(open.lastWeighedDay, day);
  }

  /** The open cylinders of that refrigerant that are in other vans. */
  elsewhere(technicianId: string, refrigerant: Refrigerant): string[] {
    const own = keyOf(technicianId, refrigerant);
    return [...this.#open].flatMap(([key, { cylinderId }]) =>
      key !== own && key.endsWith(` ${refrigerant}`) ? [cylinderId] : [],
    );
  }

  #close(key: string, open: OpenCylinder, day: number): void {
    const row = this.#rows.get(open.cylinderId);
    if (row === undefined) return;
    this.#closing.set(key, open.cylinderId);
    this.#rows.set(open.cylinderId, { ...row, closed_on: dateOfDay(day), closing_kg: round(Math.max(0, open.leftKg)) });
  }

  /** Every cylinder so far. */
  rows(): Cylinder[] {
    return [...this.#rows.values()];
  }
}

function keyOf(technicianId: string, refrigerant: Refrigerant): string {
  return `${technicianId} ${refrigerant}`;
}

function round(kg: number): number {
  return Math.round(kg * 100) / 100;
}
