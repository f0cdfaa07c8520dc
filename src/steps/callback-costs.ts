import { type CallbackCause, callbackCause } from '../fleet/callbacks/callback-cause.ts';
import type { CallbackCostLine } from '../pages/accounts-data.ts';
import type { CallbackCost } from '../store/callback-costs.ts';

/** A callback within so many days after its work is the shop's to pay. Common practice, no source. */
export const warrantyDays = 365;

const causes: readonly CallbackCause[] = ['commissioning', 'other', 'unknown'];

/** What callbacks cost, by what they were probably about. */
export function callbackCosts(callbacks: readonly CallbackCost[]): CallbackCostLine[] {
  const byCause = Map.groupBy(callbacks, (callback) => callbackCause(callback).cause);
  return causes.flatMap((cause) => {
    const own = byCause.get(cause) ?? [];
    if (own.length === 0) return [];
    const warranted = own.filter(({ days_after: days }) => days !== null && days <= warrantyDays);
    const costOf = (all: readonly CallbackCost[]) => all.reduce((sum, { cost }) => sum + (cost ?? 0), 0);
    return [
      {
        cause,
        callbacks: own.length,
        costed: own.filter(({ cost }) => cost !== null).length,
        cost: costOf(own),
        inWarranty: warranted.length,
        warrantyCost: costOf(warranted),
        refrigerantKg: own.reduce((sum, { refrigerant_added_kg: kg }) => sum + (kg ?? 0), 0),
      },
    ];
  });
}
