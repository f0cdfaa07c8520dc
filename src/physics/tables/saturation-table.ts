/** Temperatures of one side of the curve, at pressures evenly spaced in ln p. */
export interface TemperatureCurve {
  readonly lowPa: number;
  readonly highPa: number;
  readonly temperaturesK: readonly number[];
}

/** Densities of one side of the curve, at temperatures evenly spaced in (1 − T/T_end)^¼: ever closer towards the critical region. */
export interface DensityCurve {
  readonly lowK: number;
  readonly highK: number;
  readonly endK: number;
  readonly densitiesKgPerM3: readonly number[];
}

/** The saturation curve of a refrigerant as numbers, made from its equations. */
export interface SaturationTable {
  readonly designation: string;
  readonly bubble: TemperatureCurve;
  readonly dew: TemperatureCurve;
  readonly liquid: DensityCurve;
  readonly vapour: DensityCurve;
}
