import type { Cylinder } from '../records/tables/cylinders.ts';
import { dateOfDay } from './calendar.ts';
import type { Refrigerant } from './line-adders.ts';

/** A cylinder in use. */
export interface OpenCylinder {
  readonly cylinderId: string;
  readonly tareKg: number;
  leftKg: number;
}

const NET_KG = 11.34;
const TARE_KG = 3.6;
/** The shop's price of a kilogram; invented. */
const COST_PER_KG: Record<Refrigerant, number> = { 'R-410A': 22, 'R-32': 16, 'R-454B': 38, 'R-407C': 24 };

/** The crews' cylinders: one open per crew and refrigerant, the next one bought when it cannot give what is asked. */
export class CylinderStore {
  readonly #open = new Map<string, OpenCylinder>();
  readonly #rows = new Map<string, Cylinder>();

  /** A cylinder that still holds `massKg`; masses above a full cylinder get one of their own, larger. */
  take(crewId: string, refrigerant: Refrigerant, massKg: number, day: number): OpenCylinder {
    const key = `${crewId} ${refrigerant}`;
    const open = this.#open.get(key);
    if (open !== undefined && open.leftKg - massKg > 0.15) return open;
    if (open !== undefined) this.#close(open, day);
    const cylinderId = `cylinder-${String(this.#rows.size + 1).padStart(5, '0')}`;
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
    const fresh = { cylinderId, tareKg: TARE_KG, leftKg: netKg };
    this.#open.set(key, fresh);
    return fresh;
  }

  /** The open cylinder where it cannot give `massKg` but holds enough to begin with. */
  runningOut(crewId: string, refrigerant: Refrigerant, massKg: number): OpenCylinder | undefined {
    const open = this.#open.get(`${crewId} ${refrigerant}`);
    return open !== undefined && open.leftKg - massKg <= 0.15 && open.leftKg > 0.2 ? open : undefined;
  }

  #close(open: OpenCylinder, day: number): void {
    const row = this.#rows.get(open.cylinderId);
    if (row === undefined) return;
    this.#rows.set(open.cylinderId, { ...row, closed_on: dateOfDay(day), closing_kg: round(Math.max(0, open.leftKg)) });
  }

  /** Every cylinder so far. */
  rows(): Cylinder[] {
    return [...this.#rows.values()];
  }
}

function round(kg: number): number {
  return Math.round(kg * 100) / 100;
}
