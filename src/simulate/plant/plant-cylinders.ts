import type { Random } from '../../numerics/random.ts';
import type { Cylinder } from '../../records/tables/cylinders.ts';
import { dateOfDay } from '../calendar.ts';

/** What one cylinder gives or takes, and what the scale shows of it [kg]. */
export interface PlantPortion {
  readonly cylinderId: string;
  readonly kg: number;
  readonly startKg: number;
  readonly endKg: number;
}

interface PlantCylinder {
  readonly cylinderId: string;
  readonly tareKg: number;
  /** What stays in it when it is exchanged [kg]. */
  readonly heelKg: number;
  heldKg: number;
}

/** What one can weigh on the plant's scale [kg]: invented. */
export const PLANT_SCALE_STEP_KG = 0.05;
const NET_KG = [45, 50, 55, 60] as const;
const RECOVERY_CAPACITY_KG = [60, 120] as const;
/** No weighing is of less [kg]. */
const CRUMB_KG = 0.2;
/** The shop's price of a kilogram; invented. */
const COST_PER_KG: Readonly<Record<string, number>> = {
  'R-404A': 34,
  'R-448A': 31,
  'R-449A': 30,
  'R-507A': 33,
  'R-134a': 19,
  'R-22': 58,
  'R-410A': 21,
  'R-407C': 23,
  'R-513A': 29,
  'R-454B': 36,
  'R-999Z': 44,
};

/** The cylinders that plant is serviced from: one open per refrigerant, the next one where it is empty but for a heel. */
export class PlantCylinders {
  readonly #random: Random;
  readonly #open = new Map<string, PlantCylinder>();
  readonly #rows = new Map<string, Cylinder>();

  constructor(random: Random) {
    this.#random = random;
  }

  /** Takes refrigerant from as many cylinders as it needs. */
  give(refrigerant: string, kg: number, day: number): PlantPortion[] {
    const portions: PlantPortion[] = [];
    for (let restKg = kg; restKg > 0; ) {
      const open = this.#supply(refrigerant, day);
      const freeKg = open.heldKg - open.heelKg;
      const portionKg = restKg <= freeKg + CRUMB_KG ? restKg : freeKg;
      portions.push(this.#weigh(open, -portionKg));
      restKg -= portionKg;
    }
    return portions;
  }

  /** Takes refrigerant back into a recovery cylinder of its own. */
  recover(refrigerant: string, kg: number, day: number): PlantPortion {
    const random = this.#random;
    const capacityKg = RECOVERY_CAPACITY_KG.find((each) => each >= kg) ?? Math.ceil(kg);
    const cylinder = this.#fresh('plant-recovery', refrigerant, random.uniform(24, 34), 0, {
      acquired_on: dateOfDay(Math.max(0, day - random.integer(2, 40))),
      net_kg: 0,
      kind: 'recovery',
      capacity_kg: capacityKg,
    });
    return this.#weigh(cylinder, kg);
  }

  /** Gives some of what was recovered back, and sends the cylinder away with the rest. */
  giveBack(recovered: PlantPortion, kg: number, day: number): PlantPortion {
    const row = this.#rows.get(recovered.cylinderId);
    const cylinder = {
      cylinderId: recovered.cylinderId,
      tareKg: row?.tare_kg ?? 0,
      heelKg: 0,
      heldKg: recovered.kg,
    };
    const portion = this.#weigh(cylinder, -kg);
    this.close(cylinder.cylinderId, cylinder.heldKg, day);
    return portion;
  }

  close(cylinderId: string, heldKg: number, day: number): void {
    const row = this.#rows.get(cylinderId);
    if (row === undefined) return;
    this.#rows.set(cylinderId, {
      ...row,
      closed_on: dateOfDay(day),
      closing_kg: Math.round(heldKg * 100) / 100,
    });
  }

  rows(): Cylinder[] {
    return [...this.#rows.values()];
  }

  #supply(refrigerant: string, day: number): PlantCylinder {
    const random = this.#random;
    const open = this.#open.get(refrigerant);
    if (open !== undefined && open.heldKg - open.heelKg >= CRUMB_KG) return open;
    if (open !== undefined) this.close(open.cylinderId, open.heldKg, day);
    const netKg = random.choice(NET_KG);
    const fresh = this.#fresh('plant-cylinder', refrigerant, random.uniform(21, 29), netKg, {
      acquired_on: dateOfDay(Math.max(0, day - random.integer(1, 25))),
      net_kg: netKg,
      cost: netKg * (COST_PER_KG[refrigerant] ?? 30),
      kind: 'supply',
      capacity_kg: netKg,
    });
    this.#open.set(refrigerant, fresh);
    return fresh;
  }

  #fresh(word: string, refrigerant: string, aboutKg: number, heldKg: number, row: Partial<Cylinder>): PlantCylinder {
    const number = this.rows().filter(({ cylinder_id }) => cylinder_id.startsWith(word)).length + 1;
    const cylinderId = `${word}-${String(number).padStart(2, '0')}`;
    const tareKg = shownKg(aboutKg);
    this.#rows.set(cylinderId, { cylinder_id: cylinderId, refrigerant, tare_kg: tareKg, ...row });
    return { cylinderId, tareKg, heelKg: this.#random.uniform(0.3, 0.9), heldKg };
  }

  #weigh(cylinder: PlantCylinder, kg: number): PlantPortion {
    const startKg = shownKg(cylinder.tareKg + cylinder.heldKg);
    cylinder.heldKg += kg;
    const endKg = shownKg(cylinder.tareKg + cylinder.heldKg);
    return { cylinderId: cylinder.cylinderId, kg: Math.abs(kg), startKg, endKg };
  }
}

/** What the plant's scale shows [kg]. */
function shownKg(kg: number): number {
  return Math.round(Math.round(kg / PLANT_SCALE_STEP_KG) * PLANT_SCALE_STEP_KG * 100) / 100;
}
