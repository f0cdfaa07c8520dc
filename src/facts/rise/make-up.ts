import type { RisePart } from './rise-basis.ts';

/** A part of a rise beside the leak: its time constant [s], its size, and what it adds over the test [Pa]. */
export interface RisePartSize {
  readonly part: RisePart;
  readonly timeS: number;
  readonly size: number;
  readonly risePa: number;
}

/** What a rise is made of: a leak [Pa/s] and the parts beside it. */
export interface MakeUp {
  readonly leakPaPerS: number;
  readonly parts: readonly RisePartSize[];
}

/** What all parts of some kinds add over the test [Pa]. */
export function riseOf({ parts }: MakeUp, kinds: readonly RisePart[]): number {
  let sumPa = 0;
  for (const { part, risePa } of parts) if (kinds.includes(part)) sumPa += risePa;
  return sumPa;
}

/** The part of a kind; undefined where there is none. */
export function partOf({ parts }: MakeUp, kind: RisePart): RisePartSize | undefined {
  return parts.find(({ part }) => part === kind);
}
