import type { HelmholtzTerms } from '../equations/fluid.ts';
import type { ReferenceKey } from '../../references.ts';

/** Published interaction of two fluids: reducing parameters of one form or the other, and a departure term where there is one. */
export interface BinaryPair {
  /** Designations; β belongs to this order. */
  readonly between: readonly [string, string];
  readonly reference: ReferenceKey;
  readonly reducing:
    | { readonly betaT: number; readonly gammaT: number; readonly betaV: number; readonly gammaV: number }
    | { readonly xiK: number; readonly zetaM3PerMol: number };
  readonly departure?: HelmholtzTerms;
  /** Factor of the departure term. */
  readonly factor?: number;
}

/** The departure term that several pairs of hydrofluorocarbons share, each with its own factor. */
const hydrofluorocarbons: HelmholtzTerms = {
  power: [
    [-0.013073, 7.4, 1, 1],
    [0.018259, 0.35, 3, 1],
    [8.1299e-6, 10, 11, 2],
    [0.0078496, 5.3, 2, 3],
  ],
};

/**
 * Every pair that we have, from CoolProp's data files like the fluids; two fluids that are not here mix as `mixture-pair.ts`
 * assumes.
 */
export const binaryPairs: readonly BinaryPair[] = [
  {
    between: ['R-32', 'R-125'],
    reference: 'lemmon-jacobsen-2004',
    reducing: { xiK: 28.95, zetaM3PerMol: -6.008e-6 },
    departure: {
      power: [
        [-0.0072955, 4.5, 2, 1],
        [0.078035, 0.57, 5, 1],
        [0.61007, 1.9, 1, 2],
        [0.64246, 1.2, 3, 2],
        [0.014965, 0.5, 9, 2],
        [-0.34049, 2.6, 2, 3],
        [0.085658, 11.4, 3, 3],
        [-0.064429, 4.5, 6, 3],
      ],
    },
  },
  {
    between: ['R-32', 'R-134a'],
    reference: 'lemmon-jacobsen-2004',
    reducing: { xiK: 7.909, zetaM3PerMol: -2.039e-6 },
    departure: {
      power: [
        [0.22909, 1.9, 1, 1],
        [0.094074, 0.25, 3, 1],
        [0.00039876, 0.07, 8, 1],
        [0.021113, 2, 1, 2],
      ],
    },
  },
  {
    between: ['R-125', 'R-134a'],
    reference: 'lemmon-jacobsen-2004',
    reducing: { xiK: -0.4326, zetaM3PerMol: -3.453e-7 },
    departure: hydrofluorocarbons,
  },
  {
    between: ['R-125', 'R-143a'],
    reference: 'lemmon-jacobsen-2004',
    reducing: { xiK: 5.551, zetaM3PerMol: -4.452e-7 },
    departure: hydrofluorocarbons,
    factor: 1.1697,
  },
  {
    between: ['R-134a', 'R-143a'],
    reference: 'lemmon-jacobsen-2004',
    reducing: { xiK: 2.324, zetaM3PerMol: 6.182e-7 },
    departure: hydrofluorocarbons,
    factor: 0.5557,
  },
  {
    between: ['R-32', 'R-1234yf'],
    reference: 'bell-2023',
    reducing: { betaT: 1.011011, gammaT: 0.966965, betaV: 1.007852, gammaV: 1.037663 },
    departure: {
      power: [
        [0.449487, 2.538296, 1, 1],
        [-0.099708, 3.208604, 2, 1],
        [0.098897, 0.456509, 3, 1],
      ],
    },
  },
  {
    between: ['R-32', 'R-1234ze(E)'],
    reference: 'bell-2023',
    reducing: { betaT: 1.005148, gammaT: 0.946105, betaV: 0.999032, gammaV: 1.029821 },
    departure: {
      power: [
        [0.295192, 0.500457, 1, 1],
        [-0.737904, 3.104735, 2, 1],
        [0.542962, 3.20172, 3, 1],
        [-0.201951, 2.567118, 4, 1],
      ],
    },
  },
  {
    between: ['R-125', 'R-1234yf'],
    reference: 'bell-2023',
    reducing: { betaT: 0.999969, gammaT: 0.998028, betaV: 0.998226, gammaV: 1.006068 },
    departure: { power: [[-0.032013, 0.00803, 1, 1]] },
  },
  {
    between: ['R-1234yf', 'R-134a'],
    reference: 'bell-2022',
    reducing: { betaT: 1.000026, gammaT: 0.987057, betaV: 1.000272, gammaV: 1.003747 },
    departure: {
      power: [
        [0.0519, 2.477314, 1, 1],
        [-0.011472, 0.070541, 2, 2],
      ],
    },
  },
  {
    between: ['R-1234yf', 'R-1234ze(E)'],
    reference: 'bell-2022',
    // CoolProp's data file prints γ_T = 0.999309, which does not give its paper's check value; 0.993309 does.
    reducing: { betaT: 0.998886, gammaT: 0.993309, betaV: 0.999302, gammaV: 0.99859 },
    departure: {
      power: [
        [0.07264, 0.012645, 1, 1],
        [-0.024746, 3.992829, 2, 2],
      ],
    },
  },
  {
    between: ['R-134a', 'R-1234ze(E)'],
    reference: 'bell-2022',
    reducing: { betaT: 0.998593, gammaT: 0.992009, betaV: 0.998995, gammaV: 0.998621 },
    departure: {
      power: [
        [0.068889, 3.184446, 1, 1],
        [-0.004831, 2.034344, 2, 2],
      ],
    },
  },
  {
    between: ['R-125', 'R-1234ze(E)'],
    reference: 'bell-2025',
    reducing: { betaT: 0.994388, gammaT: 1.00124, betaV: 1.028287, gammaV: 0.999334 },
  },
  {
    between: ['R-143a', 'R-1234ze(E)'],
    reference: 'bell-2025',
    reducing: { betaT: 0.975352, gammaT: 0.997695, betaV: 1.249976, gammaV: 1.03652 },
  },
  {
    between: ['R-32', 'R-22'],
    reference: 'bell-2025',
    reducing: { betaT: 1, gammaT: 0.993276, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-134a', 'R-22'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 0.99975, gammaT: 0.99196, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-143a', 'R-22'],
    reference: 'bell-2025',
    reducing: { betaT: 1, gammaT: 1.000486, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-290', 'R-22'],
    reference: 'bell-2025',
    reducing: { betaT: 1, gammaT: 0.942193, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-143a', 'R-32'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 0.99734, gammaT: 0.97488, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-290', 'R-32'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 1.00067, gammaT: 0.86421, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-290', 'R-125'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 1.00883, gammaT: 0.89892, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-290', 'R-134a'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 1.01148, gammaT: 0.89674, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-290', 'R-143a'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 1.00987, gammaT: 0.91581, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-1234yf', 'R-143a'],
    reference: 'bell-lemmon-2016',
    reducing: { betaT: 1.00024, gammaT: 0.99523, betaV: 1, gammaV: 1 },
  },
  {
    between: ['R-290', 'R-1234yf'],
    reference: 'bell-2025',
    reducing: { betaT: 1.006037, gammaT: 0.937793, betaV: 1.013434, gammaV: 1.013195 },
  },
  {
    between: ['R-290', 'R-1234ze(E)'],
    reference: 'bell-2025',
    reducing: { betaT: 1.01347, gammaT: 0.932901, betaV: 0.997417, gammaV: 1.014015 },
  },
];
