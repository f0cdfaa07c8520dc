import type { LeakRateMethod } from '../accounts/appliance-leaks.ts';
import { leakCheckObligations } from '../accounts/leak-check-obligations.ts';
import { leakRateObligations } from '../accounts/leak-rate-obligations.ts';
import type { Obligation } from '../accounts/obligation.ts';
import type { OpenAppliance } from './open-appliances.ts';

/**
 * What all rules that apply ask of an appliance.
 *
 * @param today since 1970
 */
export function obligationsOf(
  { account: { appliance, ruled, years }, repairs, inspectionDays }: OpenAppliance,
  method: LeakRateMethod,
  today: number,
): Obligation[] {
  return ruled.flatMap(({ rule, verdict, events }) => {
    if (verdict.state !== 'applies') return [];
    if (rule.kind === 'leak-rate')
      return leakRateObligations({ appliance, events, years, repairs, inspectionDays, method, today }, rule);
    const everyMonths = verdict.everyMonths ?? 12;
    return leakCheckObligations({ appliance, repairs, inspectionDays, everyMonths, today }, rule);
  });
}
