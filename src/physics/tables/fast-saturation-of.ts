import { DryholdError } from '../../errors.ts';
import { FastSaturation } from './fast-saturation.ts';
import { saturationTables } from './saturation-tables.ts';

const made = new Map<string, FastSaturation>();

/**
 * The saturation curve of a refrigerant from its table, for series of many readings.
 *
 * @param designation as ASHRAE 34 writes it
 * @throws DryholdError `unknown-refrigerant` where there is no table; for a blend of one's own, `makeSaturationTable` makes one
 *
 * Source: tables made from the equations by `npm run generate`. Accuracy: against the equations, temperatures within 0.002 K
 * (near the end of the curve; 0.0001 K up to nine tenths of it), densities within 0.003 %, of vapour below −50 °C 0.03 %.
 * Speed: some 10 ns a value (`npm run bench:physics`).
 *
 * @example
 * fastSaturationOf('R-410A').dewK(1e6) // 280.424
 */
export function fastSaturationOf(designation: string): FastSaturation {
  let curve = made.get(designation);
  if (curve === undefined) {
    const table = saturationTables.find((each) => each.designation === designation);
    if (table === undefined) {
      const known = saturationTables.map((each) => each.designation);
      throw new DryholdError('unknown-refrigerant', { refrigerant: designation, known });
    }
    curve = new FastSaturation(table);
    made.set(designation, curve);
  }
  return curve;
}
