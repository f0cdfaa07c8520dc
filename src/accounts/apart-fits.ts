import type { CylinderGap } from './cylinder-walk.ts';

/** A weighing that is kept apart, with what its weights say. */
export interface ApartWeighing {
  readonly weighingId: string;
  readonly refrigerant: string | null;
  readonly day: number;
  readonly outKg: number;
}

/** Masses that differ by less are the same [kg]. Common practice, no source. */
const nearKg = 0.06;
const binsPerKg = 10;
/** So many are named. */
const most = 3;

/** Weighings that are kept apart, by what left the cylinder, so that what is missing elsewhere finds them. */
export class ApartWeighings {
  readonly #byMass = new Map<number, ApartWeighing[]>();

  add(weighing: ApartWeighing): void {
    const bin = Math.round(weighing.outKg * binsPerKg);
    const own = this.#byMass.get(bin);
    if (own === undefined) this.#byMass.set(bin, [weighing]);
    else own.push(weighing);
  }

  /** Those that took as much as is missing, of the same refrigerant, in the days in which it went missing. */
  fitting({ kg, fromDay, day }: CylinderGap, refrigerant: string | null): string[] {
    const bin = Math.round(kg * binsPerKg);
    return [bin - 1, bin, bin + 1]
      .flatMap((one) => this.#byMass.get(one) ?? [])
      .filter(
        (weighing) =>
          Math.abs(weighing.outKg - kg) <= nearKg &&
          (weighing.refrigerant === null || weighing.refrigerant === refrigerant) &&
          weighing.day >= (fromDay ?? Number.NEGATIVE_INFINITY) - 1 &&
          weighing.day <= day + 1,
      )
      .map(({ weighingId }) => weighingId)
      .slice(0, most);
  }
}
