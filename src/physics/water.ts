/** The fixed points of pure water that its equations are written with. */
export const water = {
  /** Lowest temperature of the equation for ice [K]. Source: `iapws-r14-08`. */
  lowestIceK: 50,
  /** Lowest temperature of the equations for the liquid [K]: 0 °C, 0.01 K below the triple point. */
  lowestLiquidK: 273.15,
  /** Triple point [K, Pa]. Source: `iapws-r14-08`. */
  tripleK: 273.16,
  triplePa: 611.657,
  /** Critical point [K, Pa, kg/m³]. Source: `iapws-sr1-86`. */
  criticalK: 647.096,
  criticalPa: 22.064e6,
  criticalKgPerM3: 322,
} as const;
