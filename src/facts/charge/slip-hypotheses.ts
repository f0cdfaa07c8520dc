import type { Facts } from '../../records/tables/facts.ts';
import { toInterchange } from '../../units/unit.ts';
import type { ChargeTarget } from './charge-target.ts';
import { refrigerantRatio, sizeRatio } from './line-adder.ts';

export type ChargeSlip = NonNullable<Facts['charge_slip']>;

/** One way of getting the sum wrong. */
export interface SlipHypothesis {
  readonly slip: ChargeSlip;
  /** Which other size or refrigerant, or which way round; absent where there is only one way. */
  readonly of?: string;
  /** What it would have put in [kg]. */
  readonly chargeKg: number;
  /** How likely it is among the ways of the same slip; they add up to 1. */
  readonly share: number;
}

/** What the sum was worked out from. */
export interface SlipMaterial {
  readonly target: ChargeTarget;
  readonly refrigerant: string | undefined;
  /** What should have gone in [kg], and whether the factory charge was in the system before. */
  readonly wantedKg: number;
  readonly preCharged: boolean;
  /** Refrigerant that stayed in the hoses [kg]; undefined where it is not known. */
  readonly residualKg: number | undefined;
}

const poundKg = toInterchange(1, 'lb');
/** Liquid lines that a wrong row of a table may be of, by outer diameter [mm], as people name them. */
const sizes = [
  { odMm: 6.35, name: '1/4 in' },
  { odMm: 7.94, name: '5/16 in' },
  { odMm: 9.52, name: '3/8 in' },
  { odMm: 12.7, name: '1/2 in' },
] as const;
/** Refrigerants whose adder is looked up by mistake. */
const refrigerants = ['R-410A', 'R-32', 'R-454B', 'R-22', 'R-407C', 'R-134a'] as const;
/** The slips on a whole line's sum that need a line longer than covered; with less of it they change nothing. */
const leastKg = 0.001;

/** Every slip that is possible on a job, with what it would have put in. */
export function slipHypotheses(material: SlipMaterial): SlipHypothesis[] {
  const { target, wantedKg, preCharged, residualKg } = material;
  const ownKg = (preCharged ? 0 : target.factoryKg) + target.otherKg;
  const all: SlipHypothesis[] = [
    ...(target.lineKg > leastKg ? lineSlips(material, ownKg) : []),
    { slip: 'from-zero', chargeKg: ownKg + fromZeroKg(target), share: 1 },
    ...ounceSlips(wantedKg),
    { slip: 'kg-pound', of: 'kilograms were taken for pounds', chargeKg: wantedKg * poundKg, share: 0.5 },
    { slip: 'kg-pound', of: 'pounds were taken for kilograms', chargeKg: wantedKg / poundKg, share: 0.5 },
    { slip: 'factory-again', chargeKg: wantedKg + target.factoryKg, share: 1 },
  ];
  if (residualKg !== undefined) {
    all.push(
      { slip: 'hose-residual', of: 'not counted', chargeKg: wantedKg - residualKg, share: 0.6 },
      { slip: 'hose-residual', of: 'counted twice', chargeKg: wantedKg + residualKg, share: 0.4 },
    );
  }
  return all.filter(({ chargeKg }) => Number.isFinite(chargeKg) && chargeKg >= 0);
}

/** The line left out, or reckoned with the adder of another size or refrigerant. */
function lineSlips({ target, refrigerant }: SlipMaterial, ownKg: number): SlipHypothesis[] {
  const longest = target.lines.toSorted((a, b) => b.beyondM - a.beyondM)[0];
  const other = (slip: ChargeSlip, ratios: readonly { of: string; ratio: number }[]): SlipHypothesis[] => {
    const known = ratios.filter(({ ratio }) => Number.isFinite(ratio) && Math.abs(ratio - 1) > 0.01);
    return known.map(({ of, ratio }) => ({
      slip,
      of,
      chargeKg: ownKg + target.lineKg * ratio,
      share: 1 / known.length,
    }));
  };
  return [
    { slip: 'line-ignored', chargeKg: ownKg, share: 1 },
    ...other(
      'other-line-size',
      sizes.map(({ odMm, name }) => ({ of: name, ratio: sizeRatio(odMm, longest.liquidOdMm ?? Number.NaN) })),
    ),
    ...other(
      'other-refrigerant',
      refrigerants.map((name) => ({ of: name, ratio: refrigerantRatio(name, refrigerant) })),
    ),
  ];
}

/** The whole length of every line counted, not what is beyond the covered one [kg]. */
function fromZeroKg({ lines }: ChargeTarget): number {
  return lines.reduce((sum, line) => sum + line.lengthM * line.adderKgPerM, 0);
}

/** Ounces taken for tenths of a pound, "5 lb 6 oz" for 5.6 lb and 5.6 oz for 0.56 lb, and the other way round. */
function ounceSlips(wantedKg: number): SlipHypothesis[] {
  const pounds = Math.floor(wantedKg / poundKg + 1e-9);
  const ounces = (wantedKg / poundKg - pounds) * 16;
  if (pounds === 0)
    return [
      {
        slip: 'ounce-tenth-pound',
        of: 'ounces were taken for tenths of a pound',
        chargeKg: (ounces / 10) * poundKg,
        share: 0.85,
      },
      {
        slip: 'ounce-tenth-pound',
        of: 'tenths of a pound were taken for ounces',
        chargeKg: ((ounces / 16) * 10 * poundKg) / 16,
        share: 0.15,
      },
    ];
  // "5 lb 15.8 oz" is written 6 lb.
  const allOunces = Math.round((wantedKg / poundKg) * 16);
  const [wholePounds, whole] = [Math.floor(allOunces / 16), allOunces % 16];
  const tenths = (wantedKg / poundKg - pounds) * 10;
  return [
    {
      slip: 'ounce-tenth-pound',
      of: 'ounces were taken for tenths of a pound',
      chargeKg: (wholePounds + (whole < 10 ? whole / 10 : whole / 100)) * poundKg,
      share: 0.85,
    },
    {
      slip: 'ounce-tenth-pound',
      of: 'tenths of a pound were taken for ounces',
      chargeKg: (pounds + tenths / 16) * poundKg,
      share: 0.15,
    },
  ];
}
