/** How finely rows are told apart by time. */
export type TimeGrain = 'month' | 'quarter' | 'year';

/** How many months each is. */
export const monthsEach: Readonly<Record<TimeGrain, number>> = { month: 1, quarter: 3, year: 12 };

/** Rows that were joined until there are few enough for a page, and how finely they still tell time. */
export interface CoarseRows<Row> {
  readonly rows: readonly Row[];
  readonly grain: TimeGrain;
}

/**
 * Joins rows by quarter, and by year if need be, until they are few enough for a page.
 *
 * @param rows with a month, YYYY-MM or empty
 * @param sums the fields that add up; rows are joined where all others are the same
 * @param most rows that a page carries
 * @returns as few as that, or joined by year where even that is more
 */
export function coarseRows<Row extends { readonly month: string }, Sum extends keyof Row>(
  rows: readonly Row[],
  sums: readonly Sum[],
  most: number,
): CoarseRows<Row> {
  if (rows.length <= most) return { rows, grain: 'month' };
  const quarters = joinedBy(rows, sums, monthsEach.quarter);
  return quarters.length <= most
    ? { rows: quarters, grain: 'quarter' }
    : { rows: joinedBy(rows, sums, monthsEach.year), grain: 'year' };
}

function joinedBy<Row extends { readonly month: string }, Sum extends keyof Row>(
  rows: readonly Row[],
  sums: readonly Sum[],
  months: number,
): Row[] {
  const joined = new Map<string, Row>();
  for (const row of rows) {
    const coarse = { ...row, month: firstMonth(row.month, months) };
    const key = JSON.stringify(Object.entries(coarse).filter(([name]) => !sums.includes(name as Sum)));
    const same = joined.get(key);
    if (same === undefined) joined.set(key, coarse);
    else for (const name of sums) same[name] = sumOf(same[name], coarse[name]) as Row[Sum];
  }
  return [...joined.values()];
}

/** What is not known stays so only where both are not. */
function sumOf(one: unknown, other: unknown): number | null {
  return one === null && other === null ? null : Number(one) + Number(other);
}

/** The first month of the quarter or year that a month is in; no month stays none. */
function firstMonth(month: string, months: number): string {
  if (month === '') return '';
  const at = Number(month.slice(5, 7)) - 1;
  return `${month.slice(0, 5)}${String(at - (at % months) + 1).padStart(2, '0')}`;
}
