import type { Weighing } from '../../records/tables/weighings.ts';
import { instantOfDay } from '../calendar.ts';
import type { PlantCylinders, PlantPortion } from './plant-cylinders.ts';

/** What is weighed in or out of an appliance on one visit. */
export interface PlantWeighing {
  readonly systemId: string;
  readonly refrigerant: string;
  readonly purpose: NonNullable<Weighing['purpose']>;
  readonly leakId?: string | undefined;
  readonly kg: number;
  /** When, in days since the first. */
  readonly day: number;
}

const APART_DAYS = 3 / 1440;

/** The weighings of plant, in the order in which they are made. */
export class PlantWeighings {
  readonly #cylinders: PlantCylinders;
  readonly rows: Weighing[] = [];

  constructor(cylinders: PlantCylinders) {
    this.#cylinders = cylinders;
  }

  /** From supply cylinders into the appliance. */
  putIn(weighing: PlantWeighing): void {
    const portions = this.#cylinders.give(weighing.refrigerant, weighing.kg, weighing.day);
    for (const [index, portion] of portions.entries()) this.#write('in', weighing, portion, index);
  }

  /** Out of the appliance into a recovery cylinder. */
  takeOut(weighing: PlantWeighing): PlantPortion {
    const portion = this.#cylinders.recover(weighing.refrigerant, weighing.kg, weighing.day);
    this.#write('out', weighing, portion, 0);
    return portion;
  }

  /** Back into the appliance, from the cylinder that it was taken out into. */
  giveBack(weighing: PlantWeighing, takenOut: PlantPortion): void {
    this.#write('in', weighing, this.#cylinders.giveBack(takenOut, weighing.kg, weighing.day), 0);
  }

  #write(direction: 'in' | 'out', weighing: PlantWeighing, portion: PlantPortion, index: number): void {
    const { systemId, refrigerant, purpose, leakId, day } = weighing;
    this.rows.push({
      weighing_id: `weighing-plant-${String(this.rows.length + 1).padStart(4, '0')}`,
      cylinder_id: portion.cylinderId,
      refrigerant,
      direction,
      at: instantOfDay(day + index * APART_DAYS),
      start_kg: portion.startKg,
      end_kg: portion.endKg,
      system_id: systemId,
      purpose,
      ...(leakId === undefined ? {} : { leak_id: leakId }),
    });
  }
}
