/** Temperatures of one side of the curve, at the octave places (`octavePlaces`) from the low to the high pressure. */
export interface TemperatureCurve {
  readonly lowPa: number;
  readonly highPa: number;
  readonly temperaturesK: readonly number[];
}

/** Densities of one side of the curve, at temperatures below its end by the octave places from the near to the far distance. */
export interface DensityCurve {
  readonly endK: number;
  readonly nearK: number;
  readonly farK: number;
  readonly densitiesKgPerM3: readonly number[];
}

/** The saturation curve of a refrigerant as numbers, made from its equations. */
export interface SaturationTable {
  readonly designation: string;
  readonly bubble: TemperatureCurve;
  /** Left out for a pure fluid, whose dew points are its bubble points. */
  readonly dew?: TemperatureCurve;
  readonly liquid: DensityCurve;
  readonly vapour: DensityCurve;
}
