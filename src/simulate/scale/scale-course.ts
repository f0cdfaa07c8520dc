import type { Random } from '../../numerics/random.ts';
import { drawChargeFlow } from './charge-flow.ts';
import { drawCylinderSwap } from './cylinder-swap.ts';
import { pullKg } from './hose-pull.ts';
import { placeApart, type Span } from './place-apart.ts';
import { drawScaleBump } from './scale-bump.ts';
import { drawScaleDrift } from './scale-drift.ts';
import { type ScaleEntry, scaleEntries } from './scale-entries.ts';
import { ScaleNoise } from './scale-noise.ts';
import type { ScaleUpset, ScaleUpsets } from './scale-upsets.ts';
import { drawScaleZeros } from './scale-zeros.ts';

export interface DrawScaleCourseOptions {
  readonly random: Random;
  /** What leaves the cylinder [kg], above 0. */
  readonly massKg: number;
  /** Cylinder with its content, before [kg]. */
  readonly cylinderKg: number;
  readonly scaleStepKg: number;
  readonly upsets: ScaleUpsets;
  /** Where the cylinder is changed: what the first one gives and what the second one weighs [kg]; absent: drawn. */
  readonly next?: { readonly afterKg: number; readonly cylinderKg: number } | undefined;
}

/** A weigh-in on the scale: plateau, flow, plateau; times from its beginning [s]. */
export interface ScaleCourse {
  readonly upsets: readonly ScaleUpset[];
  /** When the valve is first opened and last closed. */
  readonly flowFromS: number;
  readonly flowToS: number;
  readonly durationS: number;
  /** What the technician reads off, cylinder by cylinder and from zero to zero; the drops add up to the charge. */
  readonly entries: readonly ScaleEntry[];
  /** What truly stands on the scale [kg]. */
  readonly loadKg: (atS: number) => number;
  /** What the scale shows [kg], NaN while it is off; times must not fall from call to call. */
  readonly shownKg: (atS: number) => number;
}

/** Draws a weigh-in and all that the scale shows of it. */
export function drawScaleCourse(options: DrawScaleCourseOptions): ScaleCourse {
  const { random, massKg, cylinderKg, scaleStepKg, upsets } = options;
  const has = (name: ScaleUpset) => upsets.names.includes(name);
  const noise = new ScaleNoise(random, has('wind'));
  const driftKg = drawScaleDrift(random, has('drift'));
  const swap = has('cylinder-change') ? drawCylinderSwap(random) : undefined;
  const next = options.next ?? { afterKg: massKg * random.uniform(0.15, 0.85), cylinderKg: random.uniform(7, 15) };
  const flowFromS = random.uniform(15, 90);
  const flow = drawChargeFlow({
    random,
    massKg,
    change: swap && { afterKg: next.afterKg, durationS: swap.durationS },
  });
  const flowToS = flowFromS + flow.durationS;
  const durationS = flowToS + random.uniform(20, 120);
  const swapFromS = flowFromS + (flow.changeFromS ?? Infinity);

  const loadKg = (atS: number) => {
    const goneKg = atS <= flowFromS ? 0 : flow.goneKg(atS - flowFromS);
    if (swap === undefined || atS <= swapFromS) return cylinderKg - goneKg;
    const [first, second] = swap.restingShares(atS - swapFromS);
    return first * (cylinderKg - next.afterKg) + second * (next.cylinderKg - goneKg + next.afterKg);
  };
  const placeOf = (atS: number) =>
    atS < flowFromS
      ? atS / flowFromS
      : atS <= flowToS
        ? 1 + (atS - flowFromS) / flow.durationS
        : 2 + (atS - flowToS) / (durationS - flowToS);
  // What the display comes to rest at, were it never set to 0.
  const steadyKg = (atS: number) => {
    const loadedS = swap === undefined || atS < swapFromS ? atS : atS - swapFromS - swap.setDownS;
    return loadKg(atS) + pullKg(upsets.hose, placeOf(atS)) + driftKg(atS, loadedS);
  };

  const swapSpan: Span[] = swap === undefined ? [] : [[swapFromS - 1, swapFromS + swap.durationS]];
  const restS = swap === undefined ? undefined : swapFromS + swap.restS;
  const zeros = drawScaleZeros({ random, zeroed: upsets.zeroed, flowFromS, flowToS, restS, swapSpan }).map((atS) => ({
    atS,
    tareKg: steadyKg(Math.max(0, atS)) + random.normal(0, noise.whiteKg),
  }));
  const tareKg = (atS: number) => zeros.findLast((zero) => zero.atS <= atS)?.tareKg ?? 0;
  // Nobody sets a scale to 0 while somebody leans on it, or while it is off.
  const taken: Span[] = [...swapSpan, ...zeros.map(({ atS }): Span => [atS - 2, atS + 2])];
  const bumps = Array.from({ length: has('bump') ? random.integer(1, 3) : 0 }, () => {
    const bump = drawScaleBump(random);
    return { ...bump, fromS: placeApart(random, bump.durationS, [3, durationS - 3], taken) };
  });
  const offS = has('switched-off') ? random.uniform(20, 150) : 0;
  const offFromS = offS > 0 ? placeApart(random, offS, [5, durationS - 5], taken) : Infinity;

  const grain = (kg: number) => Math.round(Math.round(kg / scaleStepKg) * scaleStepKg * 1e6) / 1e6 + 0;
  return {
    upsets: upsets.names,
    flowFromS,
    flowToS,
    durationS,
    entries: scaleEntries({
      flowFromS,
      flowToS,
      swap: swap && { fromS: swapFromS, toS: swapFromS + swap.durationS },
      zerosS: zeros.map(({ atS }) => atS),
      readKg: (atS) => grain(steadyKg(atS) - tareKg(atS) + random.normal(0, noise.whiteKg)),
    }),
    loadKg,
    shownKg(atS) {
      const unrestKg = noise.at(atS);
      if (atS >= offFromS && atS < offFromS + offS) return Number.NaN;
      let kg = steadyKg(atS) + unrestKg;
      if (swap !== undefined) kg += swap.swingRatio(atS - swapFromS) * cylinderKg;
      for (const { fromS, addedKg } of bumps) kg += addedKg(atS - fromS);
      return grain(kg - tareKg(atS));
    },
  };
}
