import { yearlyLoss } from '../../../src/accounts/repair-worth.ts';
import type { ApplianceTruth } from '../../../src/simulate/appliance-truth.ts';
import { dayOf } from '../../../src/numerics/calendar-day.ts';
import { accountDays } from '../../../src/store/account-days.ts';
import { eachAppliance, type OpenAppliance } from '../../../src/steps/open-appliances.ts';
import type { Claim } from '../claim.ts';
import type { JudgedFleet } from './judged-fleet.ts';
import { coverageClaim, errorClaim } from './named-claims.ts';

/** What appliances that are serviced by contract lose, beside what they lost. */
export async function applianceClaims({ store, seed }: JudgedFleet): Promise<Claim[]> {
  const truths = await store.rows<ApplianceTruth & Record<string, unknown>>(
    'SELECT t.* FROM appliance_truth t JOIN appliances USING (system_id) ORDER BY system_id',
  );
  const today = dayOf((await accountDays(store))?.last ?? '1970-01-01');
  const open = new Map<string, OpenAppliance>();
  await eachAppliance(store, { today }, (one) => open.set(one.account.appliance.systemId, one));
  const told = truths.map((truth, at) => {
    const one = open.get(truth.system_id);
    const addedKg = one?.account.leaks.reduce((sum, { kg }) => sum + kg, 0) ?? 0;
    const loss = one === undefined ? null : yearlyLoss(one.account, one.repairs, today);
    return { plan: { seed, number: at + 1, kind: truth.system_id }, truth, one, addedKg, loss };
  });
  const unrepaired = told.filter(({ one, truth }) => one?.repairs.length === 0 && truth.leak_kg_per_year > 0);
  const lossText = ({ truth, loss }: (typeof told)[number]) =>
    `true ${truth.leak_kg_per_year.toFixed(2)} kg a year, told ${loss?.kgPerYear.toFixed(2) ?? 'nothing'} (${loss?.lowKgPerYear.toFixed(2)} to ${loss?.highKgPerYear.toFixed(2)}) by ${loss?.additions ?? 0} additions`;
  const asShare = (ratio: number) => `${(100 * ratio).toFixed(1)} %`;
  return [
    errorClaim(
      'what was added to an appliance for leaks, error',
      told
        .filter(({ truth }) => truth.added_kg > 0)
        .map(({ plan, truth, addedKg }) => ({
          plan,
          error: addedKg / truth.added_kg - 1,
          says: `true ${truth.added_kg.toFixed(2)} kg, told ${addedKg.toFixed(2)} kg`,
        })),
      asShare,
    ),
    errorClaim(
      'leak rate of an appliance that was not repaired, error',
      unrepaired.map((each) => ({
        plan: each.plan,
        error: each.loss === null ? undefined : each.loss.kgPerYear / each.truth.leak_kg_per_year - 1,
        says: lossText(each),
      })),
      asShare,
    ),
    coverageClaim(
      '… least and most of its single additions hold it',
      unrepaired.map((each) => ({
        plan: each.plan,
        truth: each.truth.leak_kg_per_year,
        low: each.loss?.lowKgPerYear,
        high: each.loss?.highKgPerYear,
        says: lossText(each),
      })),
    ),
  ];
}
