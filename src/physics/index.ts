export { DryholdError } from '../errors.ts';
export { apertureConductance } from './aperture-conductance.ts';
export { type ChargeFault, type ChargeFaultOptions, chargeFault } from './charge-fault.ts';
export { type CopperTube, copperTube, copperTubes } from './copper-tube.ts';
export type { ConductanceGas } from './conductance-gas.ts';
export { effectivePumpingSpeed } from './effective-pumping-speed.ts';
export type { NotConverged } from './equations/phase-boundary.ts';
export {
  type LeakAtOperatingPressure,
  type LeakAtOperatingPressureOptions,
  leakAtOperatingPressure,
} from './leak-at-operating-pressure.ts';
export { leakFromMolarLeak } from './leak-from-molar-leak.ts';
export { type LeakFromNitrogenDropOptions, leakFromNitrogenDrop } from './leak-from-nitrogen-drop.ts';
export { leakFromRise } from './leak-from-rise.ts';
export { leakFromYearlyLoss } from './leak-from-yearly-loss.ts';
export { type LeakDrive, leakRatios, type PerOpening } from './leak-ratios.ts';
export { lineMass } from './line-mass.ts';
export type { CircuitInOperation, LossBand } from './loss-in-operation.ts';
export { molarLeak } from './molar-leak.ts';
export { type MolarLeakFromRiseOptions, molarLeakFromRise } from './molar-leak-from-rise.ts';
export { nitrogenDensity } from './nitrogen-density.ts';
export {
  type NitrogenLeakAtOperatingPressureOptions,
  nitrogenLeakAtOperatingPressure,
} from './nitrogen-leak-at-operating-pressure.ts';
export { type NitrogenPressureAfterOptions, nitrogenPressureAfter } from './nitrogen-pressure-after.ts';
export { nozzleThroughput } from './nozzle-throughput.ts';
export { type PullDownThroughHoseOptions, pullDownThroughHose } from './pull-down-through-hose.ts';
export { type PullDownTimeOptions, pullDownTime } from './pull-down-time.ts';
export { composeRefrigerant } from './refrigerants/compose-refrigerant.ts';
export { makeSaturationTable } from './refrigerants/make-saturation-table.ts';
export type { Refrigerant } from './refrigerants/mixture-of.ts';
export { parseRefrigerant } from './refrigerants/parse-refrigerant.ts';
export { refrigerantDesignations, refrigerantNamed } from './refrigerants/refrigerant-named.ts';
export { type SaturationAtPressure, saturationAtPressure } from './refrigerants/saturation-at-pressure.ts';
export { type SaturationAtTemperature, saturationAtTemperature } from './refrigerants/saturation-at-temperature.ts';
export { type VapourDensity, vapourDensity } from './refrigerants/vapour-density.ts';
export { riseFromLeak } from './rise-from-leak.ts';
export { type SaturatedLineMass, saturatedLineMass } from './saturated-line-mass.ts';
export { standardAtmosphere } from './standard-atmosphere.ts';
export { type PumpedThrough, systemPumpingSpeed } from './system-pumping-speed.ts';
export { FastSaturation } from './tables/fast-saturation.ts';
export { fastSaturationOf } from './tables/fast-saturation-of.ts';
export type { SaturationTable } from './tables/saturation-table.ts';
export { tubeConductance } from './tube-conductance.ts';
export { type Passage, tubePassage } from './tube-passage.ts';
export { waterLiquidDensity } from './water-liquid-density.ts';
export { waterSaturationTemperature } from './water-saturation-temperature.ts';
export { waterVapourDensity } from './water-vapour-density.ts';
export { waterVapourPressure } from './water-vapour-pressure.ts';
export { yearlyLoss } from './yearly-loss.ts';
