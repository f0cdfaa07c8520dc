import type { RisePart } from './rise-basis.ts';

/** A part of a rise beside the leak: its time constant [s], and its size [Pa]. */
export interface RisePartSize {
  readonly part: RisePart;
  readonly timeS: number;
  readonly size: number;
}

/** What a rise is made of: a leak [Pa/s] and the parts beside it. */
export interface MakeUp {
  readonly leakPaPerS: number;
  readonly parts: readonly RisePartSize[];
}

/** What leak and parts together have added after a time [Pa]. */
export function riseAt(makeUp: MakeUp, sinceS: number): number {
  return makeUp.leakPaPerS * sinceS + partsAt(makeUp, ['saturating', 'tail', 'slow', 'settling'], sinceS);
}

/** What all parts of some kinds have added after a time [Pa]. */
export function partsAt({ parts }: MakeUp, kinds: readonly RisePart[], sinceS: number): number {
  let sumPa = 0;
  for (const { part, timeS, size } of parts) {
    if (!kinds.includes(part)) continue;
    sumPa += size * (part === 'tail' ? Math.log1p(sinceS / timeS) : 1 - Math.exp(-sinceS / timeS));
  }
  return sumPa;
}

/** The part of a kind; undefined where there is none. */
export function partOf({ parts }: MakeUp, kind: RisePart): RisePartSize | undefined {
  return parts.find(({ part }) => part === kind);
}
