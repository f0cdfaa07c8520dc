/** Air as the formulas of vacuum technology take it: at 20 °C. */
export const air = {
  /** Temperature [K]. */
  temperatureK: 293.15,
  /** Molar mass of dry air [kg/mol], from memory. */
  molarMassKgPerMol: 0.02897,
  /** Viscosity [Pa·s], from memory; the 135 of `vacuum-conductance` amounts to 18.18 µPa·s. */
  viscosityPaS: 1.82e-5,
} as const;
