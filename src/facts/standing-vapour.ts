import { bracketedRoot } from '../numerics/bracketed-root.ts';
import type { CircuitInOperation } from '../physics/loss-in-operation.ts';
import { refrigerantNamed } from '../physics/refrigerants/refrigerant-named.ts';
import { fastSaturationOf } from '../physics/tables/fast-saturation-of.ts';
import { saturationTables } from '../physics/tables/saturation-tables.ts';

/** Temperature of a system that stands [K]: 70 °F, common practice, no source. */
export const standingK = 294.26;

/**
 * Viscosity of saturated vapour at some 20 °C [Pa·s], from memory, within some 15 %; only the laminar end of a band rests
 * on it.
 */
const viscositiesPaS: Readonly<Record<string, number>> = { 'R-410A': 13.5e-6, 'R-290': 8.2e-6 };
const usualViscosityPaS = 12.5e-6;

/** Of the refrigerants that were asked for. */
const vapours = new Map<string, CircuitInOperation>();

/**
 * The vapour in a system that stands at 70 °F, its pressure the dew pressure there.
 *
 * @param refrigerant ASHRAE 34 designation
 * @returns undefined where the designation is not known
 */
export function standingVapour(refrigerant: string): CircuitInOperation | undefined {
  const known = vapours.get(refrigerant);
  if (known !== undefined) return known;
  const table = saturationTables.find(({ designation }) => designation === refrigerant);
  if (table === undefined) return undefined;
  const curve = fastSaturationOf(refrigerant);
  const { lowPa, highPa } = table.dew ?? table.bubble;
  const operatingPa = bracketedRoot((pressurePa) => curve.dewK(pressurePa) - standingK, lowPa, highPa, 1e-9);
  if (Number.isNaN(operatingPa)) return undefined;
  const vapour = {
    operatingPa,
    temperatureK: standingK,
    molarMassKgPerMol: refrigerantNamed(refrigerant).molarMassKgPerMol,
    viscosityPaS: viscositiesPaS[refrigerant] ?? usualViscosityPaS,
  };
  vapours.set(refrigerant, vapour);
  return vapour;
}
