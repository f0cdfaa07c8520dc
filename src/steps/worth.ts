import { co2eT, type GwpVintage, gwpOf, type Gwp } from '../accounts/gwp.ts';
import type { Worth } from '../pages/accounts-data.ts';
import { refrigerantPrices } from '../store/refrigerant-prices.ts';
import type { Store } from '../store/store.ts';

/** What masses of refrigerant are worth, by the prices on record and one vintage of global warming potentials. */
export interface Worths {
  readonly vintage: GwpVintage;
  /** Of a mass of one refrigerant [kg]. */
  readonly of: (refrigerant: string | null, kg: number) => Worth;
  /** Of several, as far as it is known; null where nothing is. */
  readonly sum: (all: readonly Worth[]) => Worth;
  readonly gwp: (refrigerant: string) => Gwp | undefined;
  readonly pricePerKg: (refrigerant: string) => number | undefined;
}

/** Reads the prices of a store. */
export async function readWorths(store: Store, vintage: GwpVintage): Promise<Worths> {
  const prices = await refrigerantPrices(store);
  const known = new Map<string, Gwp | undefined>();
  const gwp = (refrigerant: string): Gwp | undefined => {
    if (!known.has(refrigerant)) known.set(refrigerant, gwpOf(refrigerant, vintage));
    return known.get(refrigerant);
  };
  return {
    vintage,
    of: (refrigerant, kg) => {
      const price = prices.get(refrigerant ?? '');
      const own = refrigerant === null ? undefined : gwp(refrigerant);
      return { cost: price === undefined ? null : price * kg, co2eT: own === undefined ? null : co2eT(kg, own) };
    },
    sum: (all) => ({ cost: sumOf(all.map(({ cost }) => cost)), co2eT: sumOf(all.map((one) => one.co2eT)) }),
    gwp,
    pricePerKg: (refrigerant) => prices.get(refrigerant),
  };
}

function sumOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0);
}
