import type { FastSaturation } from '../physics/tables/fast-saturation.ts';
import { fastSaturationOf } from '../physics/tables/fast-saturation-of.ts';
import { saturationTables } from '../physics/tables/saturation-tables.ts';

/** Designations with a saturation table, by how they read without hyphens and case. */
const known: ReadonlyMap<string, string> = new Map(
  saturationTables.map(({ designation }) => [plain(designation), designation]),
);

/** The designation that a record means: `R410A` and `r-410a` are R-410A; what is not known stays as it is. */
export function meantRefrigerant(refrigerant: string): string {
  return known.get(plain(refrigerant)) ?? refrigerant;
}

/** The saturation curve of a refrigerant as a record names it; undefined where it names none that is known. */
export function knownSaturation(refrigerant: string | undefined): FastSaturation | undefined {
  const designation = refrigerant === undefined ? undefined : known.get(plain(refrigerant));
  return designation === undefined ? undefined : fastSaturationOf(designation);
}

function plain(refrigerant: string): string {
  return refrigerant
    .toLowerCase()
    .replaceAll(/[\s()-]/g, '')
    .replace(/^r(?=\d)/, '');
}
