import { dayOf } from '../numerics/calendar-day.ts';
import { accountDays } from '../store/account-days.ts';
import type { Store } from '../store/store.ts';

/** The day that is asked about, and the last on record. */
export interface AskedDay {
  /** ISO 8601. */
  readonly on: string;
  /** The same, since 1970. */
  readonly today: number;
  readonly lastDay: string;
}

/** @param on ISO 8601; undefined: the last day on record */
export async function askedDay(store: Store, on: string | undefined): Promise<AskedDay> {
  const lastDay = (await accountDays(store))?.last ?? '1970-01-01';
  return { on: on ?? lastDay, today: dayOf(on ?? lastDay), lastDay };
}
