import { GAS_CONSTANT_J_PER_MOL_K } from '../physics/gas-constant.ts';

/** Third virial coefficient of nitrogen near room temperature [m⁶/mol²], from memory. */
const thirdM6PerMol2 = 1.45e-9;

/** Second virial coefficient of nitrogen [m³/mol], from memory: −16.2 cm³/mol at 250 K, −4.5 at 300 K, within 1 up to 350 K. */
function secondM3PerMol(temperatureK: number): number {
  return 5.4e-5 - 0.01755 / temperatureK;
}

/**
 * Pressure of nitrogen by its virial equation: an equation of its own, so that what judges is not tried on itself.
 *
 * @param densityMolPerM3 density [mol/m³]; @param temperatureK [K]
 * @returns pressure [Pa], absolute
 */
export function virialPressure(densityMolPerM3: number, temperatureK: number): number {
  const second = secondM3PerMol(temperatureK);
  const sum = 1 + densityMolPerM3 * (second + thirdM6PerMol2 * densityMolPerM3);
  return GAS_CONSTANT_J_PER_MOL_K * temperatureK * densityMolPerM3 * sum;
}

/** The inverse [mol/m³], for gas up to some 100 bar. */
export function virialDensity(pressurePa: number, temperatureK: number): number {
  const ideal = pressurePa / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
  const second = secondM3PerMol(temperatureK);
  let density = ideal;
  for (let round = 0; round < 6; round += 1) density = ideal / (1 + density * (second + thirdM6PerMol2 * density));
  return density;
}
