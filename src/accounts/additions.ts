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
 * The additions that tell of leaks: those of one leak are one, and those of one day that name none; installations, retrofits, what a season took
 * out and brought back, and what was recovered shortly before are left out.
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
    let ofDay: Addition[] | undefined;
    const join = (group: Addition[], one: Addition) => {
      if (group.length === 0) groups.push(group);
      group.push(one);
      ofDay ??= group;
    };
    // Leaks that are named stay apart; what is not named is taken with another of its day.
    for (const one of sameDay.filter(({ leakId }) => leakId !== null)) {
      const group = groupOf.get(one.leakId ?? '') ?? [];
      groupOf.set(one.leakId ?? '', group);
      join(group, one);
    }
    for (const one of sameDay.filter(({ leakId }) => leakId === null)) join(ofDay ?? [], one);
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

/** What was recovered is put back within so many days, where it is. Common practice, no source. */
const refillDays = 7;

/** Additions less what was recovered on the same day or in the week before, first come first served. */
function withoutRecovered(inOrder: readonly Addition[]): Addition[] {
  const recovered: { readonly day: number; leftKg: number }[] = [];
  return inOrder.flatMap((one) => {
    if (one.purpose !== 'leak') return [one];
    if (one.kg < 0) {
      recovered.push({ day: one.day, leftKg: -one.kg });
      return [];
    }
    let { kg } = one;
    for (const removal of recovered) {
      if (one.day - removal.day > refillDays) continue;
      const backKg = Math.min(kg, removal.leftKg);
      removal.leftKg -= backKg;
      kg -= backKg;
    }
    return [{ ...one, kg }];
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
