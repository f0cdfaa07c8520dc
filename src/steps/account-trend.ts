import type { BookedLedger } from '../accounts/booked-ledger.ts';
import { type Balance, emptyBalance, unexplainedHalfWidthKg } from '../accounts/balance.ts';
import { dateOf } from '../numerics/calendar-day.ts';
import { beyondScale } from '../accounts/cylinder-walk.ts';
import { movingAverage } from '../fleet/statistics/moving-average.ts';
import { poissonTail } from '../numerics/poisson-tail.ts';
import type { MonthSignal, TrendMonth } from '../pages/accounts-data.ts';

/** What was added to an appliance for a leak. */
export interface TrendAddition {
  readonly day: number;
  readonly kg: number;
}

/** Of the newest month in the moving average. Common practice: a fifth to a third. */
const averageWeight = 0.3;
/** A month with more additions than this chance allows stands out: one in a thousand. */
const rareChance = 0.001;

/**
 * Unexplained mass and additions for leaks, month by month.
 *
 * @param chargeKg full charge of all appliances whose additions are counted [kg]
 */
export function trendMonths(ledger: BookedLedger, additions: readonly TrendAddition[], chargeKg: number): TrendMonth[] {
  const byMonth = new Map<string, Balance>();
  for (const { month, balance } of ledger.byMonth) {
    const sum = byMonth.get(month) ?? emptyBalance();
    byMonth.set(month, sum);
    sum.unexplainedKg += balance.unexplainedKg;
    sum.variance += balance.variance;
    sum.chargedKg += balance.chargedKg;
    sum.recoveredKg += balance.recoveredKg;
    sum.boughtKg += balance.boughtKg;
  }
  const leaks = Map.groupBy(additions, ({ day }) => dateOf(day).slice(0, 7));
  const months = monthsFromTo([...byMonth.keys(), ...leaks.keys()].sort());
  return months.map((month) => {
    const balance = byMonth.get(month) ?? emptyBalance();
    const own = leaks.get(month) ?? [];
    const leakKg = own.reduce((sum, { kg }) => sum + kg, 0);
    return {
      month,
      unexplainedKg: balance.unexplainedKg,
      halfWidthKg: unexplainedHalfWidthKg(balance),
      leakAdditions: own.length,
      leakKg,
      leakRate: chargeKg > 0 ? (12 * leakKg) / chargeKg : null,
    };
  });
}

function monthsFromTo(months: readonly string[]): string[] {
  if (months.length === 0) return [];
  const number = (month: string) => 12 * Number(month.slice(0, 4)) + Number(month.slice(5)) - 1;
  const [first, last] = [number(months[0]), number(months.at(-1) ?? months[0])];
  return Array.from({ length: last - first + 1 }, (_, at) => {
    const month = first + at;
    return `${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}`;
  });
}

/**
 * Months that stand out: more is unexplained than scales explain, or it has been drifting; or more leaks were topped up than the other
 * months lead to expect.
 */
export function monthSignals(months: readonly TrendMonth[]): MonthSignal[] {
  const signals: MonthSignal[] = [];
  const deviations = months.map(({ halfWidthKg }) => halfWidthKg / 1.96);
  const average = movingAverage(
    months.map(({ unexplainedKg }) => unexplainedKg),
    deviations.map((deviation) => deviation ** 2),
    averageWeight,
  );
  const all = months.reduce((sum, { leakAdditions }) => sum + leakAdditions, 0);
  for (const [at, { month, unexplainedKg, leakAdditions }] of months.entries()) {
    const limit = beyondScale * deviations[at];
    if (Math.abs(unexplainedKg) > limit && limit > 0)
      signals.push({ month, id: 'unexplained', value: unexplainedKg, limit: Math.sign(unexplainedKg) * limit });
    const drift = beyondScale * average.deviation[at];
    const isNew = at === 0 || Math.abs(average.level[at - 1]) <= beyondScale * average.deviation[at - 1];
    if (Math.abs(average.level[at]) > drift && isNew && at > 0 && Math.abs(unexplainedKg) <= limit)
      signals.push({
        month,
        id: 'unexplained-drift',
        value: average.level[at],
        limit: Math.sign(average.level[at]) * drift,
      });
    const usual = months.length > 1 ? (all - leakAdditions) / (months.length - 1) : 0;
    if (usual > 0 && usual <= 700 && leakAdditions > usual && poissonTail(leakAdditions, usual) < rareChance)
      signals.push({ month, id: 'leak-additions', value: leakAdditions, limit: usual });
  }
  return signals;
}
