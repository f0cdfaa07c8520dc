import { blends } from '../physics/refrigerants/blends.ts';

/**
 * Whose global warming potentials, over 100 years: the IPCC's fourth, fifth and sixth assessment, or those that the US rule prints.
 */
export const gwpVintages = ['ar4', 'ar5', 'ar6', 'us'] as const;

export type GwpVintage = (typeof gwpVintages)[number];

/** A global warming potential, and what to say beside it. */
export interface Gwp {
  /** Over 100 years, times that of carbon dioxide. */
  readonly gwp: number;
  readonly vintage: GwpVintage;
  /** Printed for this very refrigerant, or reckoned from its components by mass. */
  readonly from: 'printed' | 'components';
  /** True where a figure of it is from memory. */
  readonly isFromMemory: boolean;
  /** Components without a value of that vintage, for which the one of the US rule stands. */
  readonly standIns: readonly string[];
}

type Values = Partial<Record<GwpVintage, number>>;

/**
 * Values of single substances. Where AR4 has none, that of 40 CFR 84.64(b) stands for it; AR5's “below 1” is taken as 1.
 *
 * Source: `ipcc-ar4-gwp`, `ipcc-ar5-gwp`, `ipcc-ar6-gwp`, `40-cfr-84-64`.
 */
const substances: Readonly<Record<string, Values>> = {
  'R-22': { ar4: 1810, ar5: 1760, ar6: 1960 },
  'R-32': { ar4: 675, ar5: 677, ar6: 771, us: 675 },
  'R-125': { ar4: 3500, ar5: 3170, ar6: 3740, us: 3500 },
  'R-134a': { ar4: 1430, ar5: 1300, ar6: 1530, us: 1430 },
  'R-143a': { ar4: 4470, ar5: 4800, ar6: 5810, us: 4470 },
  'R-152a': { ar4: 124, ar5: 138, ar6: 164, us: 124 },
  'R-1234yf': { ar5: 1, ar6: 0.501, us: 1 },
  'R-1234ze(E)': { ar5: 1, ar6: 1.37, us: 1 },
  'R-290': { ar6: 0.02, us: 3.3 },
  'R-600a': { us: 1 },
  'R-744': { ar4: 1, ar5: 1, ar6: 1, us: 1 },
  'R-13I1': { ar4: 0.4, ar5: 0.4, ar6: 0.4, us: 0.4 },
};

/** Of those from memory: of R-13I1 (CF3I) the values, of R-454A and R-466A the composition. */
const fromMemory: ReadonlySet<string> = new Set(['R-13I1', 'R-454A', 'R-466A']);

/** Blends of which the masses are known here, though no equation of state. */
const furtherBlends: typeof blends = { 'R-466A': { 'R-32': 0.49, 'R-125': 0.115, 'R-13I1': 0.395 } };

/** Values of blends that the US rule prints, whole. Source: `40-cfr-84-64`. */
const printed: Readonly<Record<string, number>> = {
  'R-404A': 3922,
  'R-407C': 1774,
  'R-410A': 2088,
  'R-448A': 1386,
  'R-449A': 1396,
  'R-452B': 698,
  'R-454B': 465,
  'R-454C': 146,
  'R-466A': 733,
  'R-513A': 630,
};

/** Shares of a refrigerant's components by mass; undefined where its composition is not known. */
export function componentsOf(refrigerant: string): Readonly<Record<string, number>> | undefined {
  if (substances[refrigerant] !== undefined) return { [refrigerant]: 1 };
  return blends[refrigerant] ?? furtherBlends[refrigerant];
}

/**
 * The global warming potential of a refrigerant, for masses as carbon dioxide.
 *
 * @param refrigerant ASHRAE 34 designation
 * @param vintage whose values; US values of what the rule does not print are reckoned from its components
 * @returns undefined where the composition or the value of a component is not known
 *
 * Source: mass fractions times values, 40 CFR 84.64(b). Accuracy: reproduces every cell of `gwp-by-vintage` to the digits printed.
 *
 * @example gwpOf('R-410A', 'ar4')?.gwp // 2087.5
 */
export function gwpOf(refrigerant: string, vintage: GwpVintage): Gwp | undefined {
  const components = componentsOf(refrigerant);
  if (components === undefined) return undefined;
  const isFromMemory = [refrigerant, ...Object.keys(components)].some((name) => fromMemory.has(name));
  const whole = vintage === 'us' ? printed[refrigerant] : undefined;
  if (whole !== undefined) {
    const isRecalled = refrigerant === 'R-466A';
    return { gwp: whole, vintage, from: 'printed', isFromMemory: isRecalled, standIns: [] };
  }
  let gwp = 0;
  const standIns: string[] = [];
  for (const [name, share] of Object.entries(components)) {
    const own = valueOf(substances[name] ?? {}, vintage);
    if (own === undefined) return undefined;
    if (own.isStandIn) standIns.push(name);
    gwp += share * own.gwp;
  }
  const from = components[refrigerant] === undefined ? 'components' : 'printed';
  return { gwp, vintage, from, isFromMemory, standIns };
}

/** US values stand in for AR4's, on which they rest, and the other way round; newer assessments stand for themselves. */
function valueOf(values: Values, vintage: GwpVintage): { gwp: number; isStandIn: boolean } | undefined {
  const own = values[vintage];
  if (own !== undefined) return { gwp: own, isStandIn: false };
  const other = vintage === 'ar4' ? values.us : vintage === 'us' ? values.ar4 : undefined;
  return other === undefined ? undefined : { gwp: other, isStandIn: true };
}

/**
 * A mass of refrigerant as carbon dioxide [t].
 *
 * @example co2eT(1, { gwp: 2088 }) // 2.088
 */
export function co2eT(massKg: number, { gwp }: Pick<Gwp, 'gwp'>): number {
  return (massKg * gwp) / 1000;
}

/** A vintage as it stands beside a figure. */
export const vintageText: Readonly<Record<GwpVintage, string>> = {
  ar4: 'IPCC AR4',
  ar5: 'IPCC AR5',
  ar6: 'IPCC AR6',
  us: '40 CFR 84',
};
