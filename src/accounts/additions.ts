/** Refrigerant put into an appliance on a day, or taken out of it. */
export interface Addition {
  readonly day: number;
  /** Net of what the same visit took out [kg]; below 0 what was only taken out. */
  readonly kg: number;
  readonly purpose: 'leak' | 'install' | 'retrofit' | 'seasonal';
  readonly leakId: string | null;
  /** What on record tells of it: a job, a weighing or a callback. */
  readonly source: string;
}

/** One leak's additions, as the rules count them. */
export interface LeakAddition {
  /** Of the first addition, and the last. */
  readonly day: number;
  readonly lastDay: number;
  /** In all [kg]. */
  readonly kg: number;
  readonly leakId: string | null;
  readonly sources: readonly string[];
  /** Each day with what was added on it, in the order of time. */
  readonly parts: readonly LeakPart[];
}

/** What was added for a leak on one day. */
export interface LeakPart {
  readonly day: number;
  readonly kg: number;
  /** The day before it on which refrigerant was added last, whatever for; null where none is on record. */
  readonly previousDay: number | null;
}

/** What is removed for a season and put back later counts as no leak within so many days. Source: `40-cfr-82-152`, from memory. */
const seasonDays = 365;
/** Masses that differ by less are the same [kg]. */
const nothingKg = 1e-9;

/**
 * The additions that tell of leaks: those of one leak, and those of one day, are one; installations, retrofits, what a season took
 * out and brought back, and what was recovered on the same day are left out.
 *
 * @param additions in any order
 * @param firstDay the day on which the appliance was filled first, where that is on record: an addition, though none that tells of a leak
 * @returns in the order of their first days
 */
export function leakAdditions(additions: readonly Addition[], firstDay: number | null): LeakAddition[] {
  const inOrder = additions.toSorted(
    (a, b) =>
      a.day - b.day ||
      // What was taken out on a day was taken out before anything was put back.
      Number(b.kg < 0) - Number(a.kg < 0) ||
      compared(a.leakId ?? '', b.leakId ?? '') ||
      compared(a.source, b.source),
  );
  const filledDays = [
    ...(firstDay === null ? [] : [firstDay]),
    ...inOrder.filter(({ kg }) => kg > nothingKg).map(({ day }) => day),
  ].sort((a, b) => a - b);
  const groups: Addition[][] = [];
  const groupOf = new Map<string, Addition[]>();
  for (const [, sameDay] of Map.groupBy(inSeason(withoutRecovered(inOrder)), ({ day }) => day)) {
    const begun = sameDay.map(({ leakId }) => (leakId === null ? undefined : groupOf.get(leakId)));
    // What begins no leak of its own, or begins one on a day of another, is taken with that one.
    const joined = begun.find((group) => group !== undefined) ?? [];
    if (joined.length === 0) groups.push(joined);
    for (const [at, one] of sameDay.entries()) {
      const group = begun[at] ?? joined;
      group.push(one);
      if (one.leakId !== null) groupOf.set(one.leakId, group);
    }
  }
  return groups.map((group) => ({
    day: group[0].day,
    lastDay: Math.max(...group.map(({ day }) => day)),
    kg: group.reduce((sum, { kg }) => sum + kg, 0),
    leakId: group.find(({ leakId }) => leakId !== null)?.leakId ?? null,
    sources: group.map(({ source }) => source),
    parts: partsByDay(group, filledDays),
  }));
}

function compared(one: string, other: string): number {
  return one < other ? -1 : Number(one > other);
}

function partsByDay(group: readonly Addition[], filledDays: readonly number[]): LeakPart[] {
  const byDay = new Map<number, number>();
  for (const { day, kg } of group) byDay.set(day, (byDay.get(day) ?? 0) + kg);
  return [...byDay].map(([day, kg]) => ({ day, kg, previousDay: filledDays.findLast((one) => one < day) ?? null }));
}

/** Additions less what was recovered on the same day, first come first served. */
function withoutRecovered(inOrder: readonly Addition[]): Addition[] {
  const leftKg = new Map<number, number>();
  return inOrder.flatMap((one) => {
    if (one.purpose !== 'leak') return [one];
    const recoveredKg = leftKg.get(one.day) ?? 0;
    if (one.kg < 0) {
      leftKg.set(one.day, recoveredKg - one.kg);
      return [];
    }
    const backKg = Math.min(one.kg, recoveredKg);
    leftKg.set(one.day, recoveredKg - backKg);
    return [{ ...one, kg: one.kg - backKg }];
  });
}

/** Additions that count as leaks; of a seasonal one what exceeds the removals of the last year that nothing was put back for. */
function inSeason(inOrder: readonly Addition[]): Addition[] {
  const removed: { readonly day: number; leftKg: number }[] = [];
  const counted: Addition[] = [];
  for (const one of inOrder) {
    if (one.purpose === 'seasonal' && one.kg < 0) removed.push({ day: one.day, leftKg: -one.kg });
    if (one.kg <= nothingKg || one.purpose === 'install' || one.purpose === 'retrofit') continue;
    let moreKg = one.kg;
    for (const removal of one.purpose === 'seasonal' ? removed : []) {
      if (one.day - removal.day > seasonDays) continue;
      const backKg = Math.min(moreKg, removal.leftKg);
      removal.leftKg -= backKg;
      moreKg -= backKg;
    }
    if (moreKg > nothingKg) counted.push({ ...one, kg: moreKg });
  }
  return counted;
}
