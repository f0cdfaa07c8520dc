import type { ApartEntry } from '../accounts/booked-ledger.ts';
import type { ApartGroup } from '../pages/accounts-data.ts';

/** What is kept apart, gathered by reason, most first. */
export function apartGroups(entries: readonly ApartEntry[]): ApartGroup[] {
  const groups = Map.groupBy(entries, ({ reason, what }) => `${reason} ${what}`);
  return [...groups.values()]
    .map((own) => ({
      reason: own[0].reason,
      what: own[0].what,
      count: own.length,
      kg: own.reduce((sum, { kg }) => sum + Math.abs(kg ?? 0), 0),
      entries: own,
    }))
    .sort((a, b) => b.count - a.count || (a.reason < b.reason ? -1 : 1));
}
