import { limitsOf } from './require-within.ts';

/** What the formulas for tubes, pumps and leaks take: beyond these bounds a number is a slip, not a case. */
export const limits = {
  area: limitsOf('area [m²]', { above: 0 }),
  atmosphere: limitsOf('pressure of the atmosphere [Pa], absolute', { above: 0 }),
  bore: limitsOf('bore [m]', { above: 0 }),
  /** 0 where nothing passes, infinite where nothing is in the way. */
  conductance: limitsOf('conductance [m³/s]', { from: 0, to: Number.POSITIVE_INFINITY }),
  density: limitsOf('density [kg/m³]', { from: 0 }),
  duration: limitsOf('duration [s]', { above: 0 }),
  heatCapacityRatio: limitsOf('ratio of heat capacities', { above: 1 }),
  innerVolume: limitsOf('inner volume [m³/m]', { above: 0 }),
  /** One way, from where there is more to where there is less. */
  leak: limitsOf('leak [Pa·m³/s]', { from: 0 }),
  /** Where it may come from a measurement: below 0 where the gas got less. */
  signedDrop: limitsOf('drop [Pa/s]'),
  signedLeak: limitsOf('leak [Pa·m³/s]'),
  signedMolarLeak: limitsOf('leak [mol/s]'),
  signedRise: limitsOf('rise [Pa/s]'),
  signedYearlyLoss: limitsOf('loss [kg/year]'),
  length: limitsOf('length [m]', { above: 0 }),
  /** Hydrogen has 0.002, no vapour in a circuit 1: what lies above is in g/mol. */
  molarMass: limitsOf('molar mass [kg/mol]', { from: 0.001, to: 1 }),
  pressure: limitsOf('pressure [Pa], absolute', { from: 0 }),
  speed: limitsOf('pumping speed [m³/s]', { from: 0 }),
  temperature: limitsOf('temperature [K]', { above: 0 }),
  viscosity: limitsOf('viscosity [Pa·s]', { above: 0 }),
  volume: limitsOf('volume [m³]', { above: 0 }),
} as const;
