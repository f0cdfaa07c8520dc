export { type CopperTube, copperTube, copperTubes } from './copper-tube.ts';
export { effectivePumpingSpeed } from './effective-pumping-speed.ts';
export { leakFromRise } from './leak-from-rise.ts';
export { type MolarLeakFromRiseOptions, molarLeakFromRise } from './molar-leak-from-rise.ts';
export { type PullDownTimeOptions, pullDownTime } from './pull-down-time.ts';
export { standardAtmosphere } from './standard-atmosphere.ts';
export { type ConductanceGas, tubeConductance } from './tube-conductance.ts';
export { waterVapourPressure } from './water-vapour-pressure.ts';
