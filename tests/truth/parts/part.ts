import type { Claim } from '../claim.ts';

/** How much is drawn for a part, by the names of the options that change it: jobs, fleets, cylinders and so on. */
export type PartSize = Readonly<Record<string, number>>;

/** A table beside the claims. */
export interface FurtherTable {
  readonly title: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What came of a part. */
export interface PartResult {
  /** What was drawn, and how much of it: one sentence without its full stop. */
  readonly drawn: string;
  readonly claims: readonly Claim[];
  readonly tables?: readonly FurtherTable[];
  /** What else was measured: times, memory. */
  readonly notes?: readonly string[];
}

/** A part of the product that is tried on drawn ones of known truth. */
export interface Part<Size extends PartSize = PartSize> {
  readonly name: string;
  readonly title: string;
  /** Small takes seconds, full minutes. */
  readonly sizes: { readonly small: Size; readonly full: Size };
  /** About what the full size takes on a core [s]: those that take longest begin. */
  readonly fullS: number;
  /** @param onProgress told now and then what is done */
  readonly run: (size: Size, seed: number, onProgress: (says: string) => void) => PartResult | Promise<PartResult>;
}

/** Declares a part; the sizes that it is run with have what its own have. */
export function part<const Name extends string>(declared: Part<Readonly<Record<Name, number>>>): Part {
  return declared;
}

/** As many as are asked for, by their numbers from 1; says now and then how far it is. */
export function drawn<One>(
  count: number,
  what: string,
  draw: (number: number) => One,
  onProgress: (says: string) => void,
): One[] {
  return Array.from({ length: count }, (_, index) => {
    const one = draw(index + 1);
    if ((index + 1) % 10 === 0) onProgress(`${index + 1} of ${count} ${what}`);
    return one;
  });
}
