import { requireWithin, limitsOf } from './require-within.ts';

/** Conditions and size of a charge fault. */
export interface ChargeFaultOptions {
  readonly mode: 'cooling' | 'heating';
  /** What is in the system less what should be, as a ratio of what should be; below 0 too little. */
  readonly deviationRatio: number;
  /** Dry bulb indoors and outdoors [K]. */
  readonly indoorK: number;
  readonly outdoorK: number;
}

/** What a system does with that charge, as ratios of what it does with the right one. */
export interface ChargeFault {
  readonly capacityRatio: number;
  readonly powerRatio: number;
  readonly copRatio: number;
}

/** Y = 1 + (a1 + a2 T_indoor + a3 T_outdoor + a4 f) f, temperatures in °C. */
type Coefficients = readonly [a1: number, a2: number, a3: number, a4: number];

const model: Record<
  ChargeFaultOptions['mode'],
  Record<'under' | 'over', Record<'capacity' | 'power', Coefficients>>
> = {
  cooling: {
    under: { capacity: [-0.946, 0.0493, -0.00118, -1.15], power: [-0.313, 0.0115, 0.00266, -0.116] },
    over: { capacity: [-0.163, 0.0114, -0.00021, -0.14], power: [0.219, -0.00501, 0.000989, 0.284] },
  },
  heating: {
    under: { capacity: [-0.0339, 0, 0.0203, -2.62], power: [0.0616, 0, 0.00446, -0.26] },
    over: { capacity: [-0.00295, 0, 0.000738, -0.00641], power: [-0.0594, 0, 0.0159, 1.89] },
  },
};

/** The tests behind the model went no farther, from memory. */
export const largestChargeFault = 0.3;
const deviation = limitsOf('deviation of the charge as a ratio', { from: -largestChargeFault, to: largestChargeFault });
const temperature = limitsOf('dry bulb [K]', { from: 223.15, to: 333.15 });

/**
 * What too much or too little refrigerant does to capacity, power and COP.
 *
 * For saying what a deviation costs. One fault alone, a residential split heat pump with a TXV: other machines differ, and a
 * second fault adds to it or not.
 *
 * @param options see there
 * @returns ratios
 * @throws DryholdError `out-of-range` beyond ±30 % of the charge or where no house stands
 *
 * Source: `nist-tn-1848`. The coefficients were seen in building-energy simulation code, not in the note itself.
 * Accuracy: that formula; the model is a fit to one kind of machine.
 *
 * @example
 * chargeFault({ mode: 'cooling', deviationRatio: -0.2, indoorK: 299.82, outdoorK: 308.15 }).capacityRatio // 0.8885
 */
export function chargeFault({ mode, deviationRatio, indoorK, outdoorK }: ChargeFaultOptions): ChargeFault {
  requireWithin(deviation, deviationRatio);
  requireWithin(temperature, indoorK);
  requireWithin(temperature, outdoorK);
  const { capacity, power } = model[mode][deviationRatio < 0 ? 'under' : 'over'];
  const ratio = ([a1, a2, a3, a4]: Coefficients) =>
    1 + (a1 + a2 * (indoorK - 273.15) + a3 * (outdoorK - 273.15) + a4 * deviationRatio) * deviationRatio;
  const [capacityRatio, powerRatio] = [ratio(capacity), ratio(power)];
  return { capacityRatio, powerRatio, copRatio: capacityRatio / powerRatio };
}
