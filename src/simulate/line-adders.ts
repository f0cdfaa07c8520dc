import { copperTube } from '../physics/index.ts';

export type Refrigerant = 'R-410A' | 'R-32' | 'R-454B' | 'R-407C';

/** Those whose adders a technician may take by mistake. */
export const adderRefrigerants: readonly (Refrigerant | 'R-22')[] = ['R-410A', 'R-32', 'R-454B', 'R-22', 'R-407C'];

/** Outer diameters of liquid lines in the simulated jobs [mm]. */
export type LineSize = 6.35 | 7.94 | 9.52;
/** Common sizes of liquid lines, whose adders a technician may take by mistake [mm]. */
export const lineSizes = [6.35, 7.94, 9.52, 12.7] as const satisfies readonly (LineSize | 12.7)[];

const OUNCE_PER_FOOT_KG_PER_M = 0.028349523125 / 0.3048;

/** Printed adders for R-410A [oz/ft]. Source: `maker-line-set-table`. */
const r410aOuncesPerFoot: Record<LineSize, number> = { 6.35: 0.27, 7.94: 0.4, 9.52: 0.6 };

/**
 * Liquid density at 100 °F [kg/m³], CoolProp (R-22: the project's own table), for scaling the printed adder to other
 * refrigerants and for the slip of taking another refrigerant's adder.
 */
const liquidKgPerM3: Record<Refrigerant | 'R-22', number> = {
  'R-410A': 989.2,
  'R-32': 903.9,
  'R-454B': 927.9,
  'R-407C': 1078.8,
  'R-22': 1138.2,
};

/** The adder that the simulated makers print [kg/m]: the printed R-410A one, in the ratio of liquid densities, to 0.1 g/m. */
export function makerAdderKgPerM(refrigerant: Refrigerant, size: LineSize): number {
  const ratio = liquidKgPerM3[refrigerant] / liquidKgPerM3['R-410A'];
  return Math.round(r410aOuncesPerFoot[size] * OUNCE_PER_FOOT_KG_PER_M * ratio * 10_000) / 10_000;
}

/** How many times another refrigerant's adder is this one's: by liquid density. */
export function densityRatio(of: Refrigerant | 'R-22', to: Refrigerant): number {
  return liquidKgPerM3[of] / liquidKgPerM3[to];
}

/** How many times one size's adder is another's: by bore area. */
export function boreAreaRatio(of: (typeof lineSizes)[number], to: LineSize): number {
  const area = (size: number) => copperTube(size / 1000)?.innerVolumeM3PerM ?? Number.NaN;
  return area(of) / area(to);
}
