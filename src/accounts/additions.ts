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
  /** Each day with what was added on it, in the order of time [kg]. */
  readonly parts: readonly { readonly day: number; readonly kg: number }[];
  /** The day before `day` on which refrigerant was added last, whatever for; null where none is on record. */
  readonly previousDay: number | null;
}

/** What is removed for a season and put back later counts as no leak within so many days. Source: `40-cfr-82-152`, from memory. */
const seasonDays = 365;
/** Masses that differ by less are the same [kg]. */
const nothingKg = 1e-9;

/**
 * The additions that tell of leaks: those of one leak, and those of one day, are one; installations, retrofits and what a season took
 * out and brought back are left out.
 *
 * @param additions in any order
 * @param firstDay the day on which the appliance was filled first, where that is on record: an addition, though none that tells of a leak
 * @returns in the order of their first days
 */
export function leakAdditions(additions: readonly Addition[], firstDay: number | null): LeakAddition[] {
  const inOrder = withoutSeasons([...additions].sort((a, b) => a.day - b.day));
  const filledDays = [
    ...(firstDay === null ? [] : [firstDay]),
    ...additions.filter(({ kg }) => kg > nothingKg).map(({ day }) => day),
  ].sort((a, b) => a - b);
  const firstDays = new Map<string, number>();
  const groups = new Map<number, Addition[]>();
  for (const one of inOrder) {
    const first = one.leakId === null ? one.day : (firstDays.get(one.leakId) ?? one.day);
    if (one.leakId !== null) firstDays.set(one.leakId, first);
    const group = groups.get(first);
    if (group === undefined) groups.set(first, [one]);
    else group.push(one);
  }
  return [...groups]
    .sort(([a], [b]) => a - b)
    .map(([day, group]) => ({
      day,
      lastDay: Math.max(...group.map((one) => one.day)),
      kg: group.reduce((sum, { kg }) => sum + kg, 0),
      leakId: group.find(({ leakId }) => leakId !== null)?.leakId ?? null,
      sources: group.map(({ source }) => source),
      parts: partsByDay(group),
      previousDay: filledDays.findLast((one) => one < day) ?? null,
    }));
}

function partsByDay(group: readonly Addition[]): LeakAddition['parts'] {
  const byDay = new Map<number, number>();
  for (const { day, kg } of group) byDay.set(day, (byDay.get(day) ?? 0) + kg);
  return [...byDay].map(([day, kg]) => ({ day, kg })).sort((a, b) => a.day - b.day);
}

/** Additions that count as leaks; of a seasonal one what exceeds the removals of the last year that nothing was put back for. */
function withoutSeasons(inOrder: readonly Addition[]): Addition[] {
  const removed: { readonly day: number; leftKg: number }[] = [];
  const counted: Addition[] = [];
  for (const one of inOrder) {
    if (one.purpose === 'seasonal' && one.kg < 0) removed.push({ day: one.day, leftKg: -one.kg });
    if (one.kg <= nothingKg || one.purpose === 'install' || one.purpose === 'retrofit') continue;
    if (one.purpose === 'leak') {
      counted.push(one);
      continue;
    }
    let moreKg = one.kg;
    for (const removal of removed) {
      if (one.day - removal.day > seasonDays) continue;
      const backKg = Math.min(moreKg, removal.leftKg);
      removal.leftKg -= backKg;
      moreKg -= backKg;
    }
    if (moreKg > nothingKg) counted.push({ ...one, kg: moreKg });
  }
  return counted;
}
