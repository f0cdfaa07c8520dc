import type { FastSaturation } from '../physics/tables/fast-saturation.ts';
import { fastSaturationOf } from '../physics/tables/fast-saturation-of.ts';
import { saturationTables } from '../physics/tables/saturation-tables.ts';

/** Designations with a saturation table. */
const known: ReadonlySet<string> = new Set(saturationTables.map(({ designation }) => designation));

/** The saturation curve of a refrigerant as a record names it; undefined where it names none that is known. */
export function knownSaturation(refrigerant: string | undefined): FastSaturation | undefined {
  return refrigerant !== undefined && known.has(refrigerant) ? fastSaturationOf(refrigerant) : undefined;
}
