import type { FurtherTable, Part, PartSize } from './parts/part.ts';
import { type ToldClaim, toldClaims } from './told-claim.ts';

/** A part that was run, as it is printed. */
export interface ToldPart {
  readonly name: string;
  readonly title: string;
  readonly drawn: string;
  readonly claims: readonly ToldClaim[];
  readonly tables: readonly FurtherTable[];
  readonly notes: readonly string[];
  /** What it took, by the wall clock [s]. */
  readonly seconds: number;
}

/** Which part is run, how much is drawn, and how many cases against each claim are kept. */
export interface AskedPart {
  readonly name: string;
  readonly size: PartSize;
  readonly seed: number;
  readonly worst: number;
}

/** Runs a part; says on standard error what it does, where it takes longer than two seconds. */
export async function toldPart(part: Part, { size, seed, worst }: Omit<AskedPart, 'name'>): Promise<ToldPart> {
  const before = performance.now();
  let saidMs = before;
  const { drawn, claims, tables, notes } = await part.run(size, seed, (says) => {
    const nowMs = performance.now();
    if (nowMs - saidMs < 2000) return;
    saidMs = nowMs;
    process.stderr.write(`${part.name}, ${((nowMs - before) / 1000).toFixed(0)} s: ${says}\n`);
  });
  return {
    name: part.name,
    title: part.title,
    drawn,
    claims: toldClaims(claims, worst),
    tables: tables ?? [],
    notes: notes ?? [],
    seconds: (performance.now() - before) / 1000,
  };
}
