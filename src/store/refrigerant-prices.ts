import { accountedRefrigerant } from '../accounts/accounted-refrigerant.ts';
import type { Store } from './store.ts';

/** What a kilogram of each refrigerant cost, over all cylinders with mass and cost. */
export async function refrigerantPrices(store: Store): Promise<ReadonlyMap<string, number>> {
  // In a fixed order, since sums of many rows differ in their last digits with the order in which threads add them up.
  const rows = await store.rows<{ refrigerant: string; cost: number; kg: number }>(
    `SELECT refrigerant, sum(cost ORDER BY cylinder_id) AS cost, sum(net_kg ORDER BY cylinder_id) AS kg FROM cylinders
     WHERE cost > 0 AND net_kg > 0 AND refrigerant IS NOT NULL GROUP BY refrigerant ORDER BY refrigerant`,
  );
  const sums = new Map<string, { cost: number; kg: number }>();
  for (const { refrigerant: written, cost, kg } of rows) {
    const refrigerant = accountedRefrigerant(written);
    if (refrigerant === undefined) continue;
    const sum = sums.get(refrigerant) ?? { cost: 0, kg: 0 };
    sums.set(refrigerant, { cost: sum.cost + cost, kg: sum.kg + kg });
  }
  return new Map([...sums].map(([refrigerant, { cost, kg }]) => [refrigerant, cost / kg]));
}
