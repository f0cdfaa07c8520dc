import type { Random } from '../../numerics/random.ts';
import type { ApplianceTruth } from '../appliance-truth.ts';
import { drawLeakRepair, type LeakRepair } from './leak-repair.ts';
import { type PlantAppliance, plantSystemId } from './plant-appliance.ts';
import type { PlantPortion } from './plant-cylinders.ts';
import { lossBands, PlantLeak } from './plant-leak.ts';
import type { PlantWeighings } from './plant-weighings.ts';

/** Less than this is not topped up: a mass, and a share of the full charge. */
const LEAST_KG = 0.15;
const LEAST_RATIO = 0.003;
/** A leak is found at the second addition since the last repair. */
const FOUND_AT_ADDITION = 2;
/** Share of repairs at which what is missing is put in: invented. */
const FILLED_AT_REPAIR_SHARE = 0.7;
/** Share of the charge that is kept elsewhere over winter, and how much of it comes back: invented. */
const REMOVED_RATIO = 0.35;
const RETURNED_RATIO = 0.985;

/** What happens to an appliance over the year, day by day. */
export class PlantCourse {
  readonly systemId: string;
  /** The leaks that were found. */
  readonly leaks: LeakRepair[] = [];
  readonly #appliance: PlantAppliance;
  readonly #random: Random;
  readonly #weighings: PlantWeighings;
  readonly #leak: PlantLeak;
  /** Its place in the day of whoever makes the round: they go from one to the next. */
  readonly #hour: number;
  #refrigerant: string;
  #nextVisitDay: number;
  #open: LeakRepair | undefined;
  #additions = 0;
  /** When the leak after the last repair begins. */
  #worsensOnDay: number | undefined;
  #stored: PlantPortion | undefined;
  #addedKg = 0;

  constructor(appliance: PlantAppliance, index: number, random: Random, weighings: PlantWeighings) {
    const { event, fullChargeKg, loss, refrigerant } = appliance;
    this.systemId = plantSystemId(index);
    this.#appliance = appliance;
    this.#random = random;
    this.#weighings = weighings;
    this.#leak = new PlantLeak(random, loss, fullChargeKg, event?.kind === 'install' ? 0 : fullChargeKg);
    this.#hour = 7.5 + 0.35 * index;
    this.#refrigerant = event?.kind === 'retrofit' ? event.from : refrigerant;
    this.#nextVisitDay = random.integer(5, lossBands[loss].visitDays[1]);
  }

  get truth(): ApplianceTruth {
    const { kgPerYear, lostKg } = this.#leak;
    return { system_id: this.systemId, leak_kg_per_year: kgPerYear, lost_kg: lostKg, added_kg: this.#addedKg };
  }

  /** Lets a day go by. */
  pass(day: number): void {
    const atDay = day + (this.#hour + 0.1 * this.#random.uniform()) / 24;
    this.#leak.pass(day);
    if (day === this.#worsensOnDay) this.#leak.worsen();
    if (this.#hasEvent(day)) this.#event(day, atDay);
    else if (day === this.#open?.repairedDay) this.#repair(day, atDay);
    else if (day >= this.#nextVisitDay) this.#visit(day, atDay);
  }

  #visit(day: number, atDay: number): void {
    const { loss, fullChargeKg } = this.#appliance;
    this.#nextVisitDay = day + this.#random.integer(...lossBands[loss].visitDays);
    if (this.#leak.missingKg < Math.max(LEAST_KG, LEAST_RATIO * fullChargeKg)) return;
    this.#additions++;
    if (this.#isFound(day)) this.#find(day);
    this.#add(atDay);
  }

  #isFound(day: number): boolean {
    const { leaks, leaksFromDay = 0 } = this.#appliance;
    const isLeft = this.#open === undefined && this.leaks.length < leaks.length;
    return isLeft && day >= leaksFromDay && this.#additions >= FOUND_AT_ADDITION;
  }

  #find(day: number): void {
    const number = this.leaks.length;
    const found = {
      leakId: `leak-${this.systemId}-${number + 1}`,
      course: this.#appliance.leaks[number],
      foundDay: day,
    };
    this.#open = drawLeakRepair(this.#random, found, this.#appliance.fullChargeKg);
    this.leaks.push(this.#open);
  }

  #repair(day: number, atDay: number): void {
    this.#leak.repair(this.#random);
    if (this.#random.chance(FILLED_AT_REPAIR_SHARE) && this.#leak.missingKg > LEAST_KG) this.#add(atDay);
    this.#open = undefined;
    this.#additions = 0;
    if (this.leaks.length < this.#appliance.leaks.length) this.#worsensOnDay = day + this.#random.integer(15, 40);
  }

  /** Puts in most of what is missing, never more. */
  #add(atDay: number): void {
    const kg = this.#leak.missingKg * this.#random.uniform(0.9, 1);
    this.#addedKg += kg;
    this.#leak.contentKg += kg;
    this.#weighings.putIn({ ...this.#weighing('leak', kg, atDay), leakId: this.#open?.leakId });
  }

  #hasEvent(day: number): boolean {
    const { event } = this.#appliance;
    if (event?.kind === 'seasonal') return day === event.removedOnDay || day === event.returnedOnDay;
    return day === event?.onDay;
  }

  #event(day: number, atDay: number): void {
    const { event, fullChargeKg, refrigerant } = this.#appliance;
    const leak = this.#leak;
    if (event?.kind === 'seasonal' && day === event.removedOnDay) {
      const kg = REMOVED_RATIO * fullChargeKg;
      this.#stored = this.#weighings.takeOut(this.#weighing('seasonal', kg, atDay));
      leak.contentKg -= kg;
      leak.tightKg -= kg;
    } else if (event?.kind === 'seasonal' && this.#stored !== undefined) {
      const kg = RETURNED_RATIO * this.#stored.kg;
      this.#weighings.giveBack(this.#weighing('seasonal', kg, atDay), this.#stored);
      leak.contentKg += kg;
      leak.tightKg += kg;
    } else if (event?.kind === 'install' || event?.kind === 'retrofit') {
      if (event.kind === 'retrofit') this.#weighings.takeOut(this.#weighing('recovery', leak.contentKg, atDay));
      this.#refrigerant = refrigerant;
      this.#weighings.putIn(this.#weighing(event.kind, fullChargeKg, atDay + 0.1 / 24));
      leak.contentKg = fullChargeKg;
      leak.tightKg = fullChargeKg;
    }
  }

  #weighing(purpose: 'leak' | 'seasonal' | 'install' | 'retrofit' | 'recovery', kg: number, day: number) {
    return { systemId: this.systemId, refrigerant: this.#refrigerant, purpose, kg, day };
  }
}
