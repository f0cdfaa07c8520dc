import type { Random } from '../../numerics/random.ts';
import { drawHosePull, type HosePull } from './hose-pull.ts';

/** What can upset a charging scale, in the order in which truth names it. */
export const scaleUpsetNames = ['bump', 'hose', 're-zero', 'cylinder-change', 'drift', 'wind', 'switched-off'] as const;

export type ScaleUpset = (typeof scaleUpsetNames)[number];

/** What upsets one weigh-in. */
export interface ScaleUpsets {
  readonly names: readonly ScaleUpset[];
  readonly hose: HosePull | undefined;
  /** When the technician sets the display to 0: before the charge, or in the midst of it. */
  readonly zeroed: 'before' | 'mid' | undefined;
}

/** Nothing upsets the scale. */
export const undisturbed: ScaleUpsets = { names: [], hose: undefined, zeroed: undefined };

/** Share of weigh-ins with each: common practice, no source. `mid` is a re-zero in mid-charge. */
const shares: Readonly<Record<ScaleUpset | 'mid', number>> = {
  bump: 0.15,
  hose: 0.1,
  're-zero': 0.15,
  mid: 0.02,
  'cylinder-change': 0.03,
  drift: 0.1,
  wind: 0.03,
  'switched-off': 0.02,
};

/** What goes wrong comes together: on the other jobs nothing upsets the scale. */
const UPSET_JOBS_SHARE = 0.55;

/**
 * Draws what upsets the scale; nothing on some 60 % of jobs.
 *
 * @param cylinderChange whether the cylinder is changed, where the stock decides it; absent: drawn
 */
export function drawScaleUpsets(random: Random, cylinderChange?: boolean): ScaleUpsets {
  const upset = random.chance(UPSET_JOBS_SHARE);
  const drawn = (name: ScaleUpset | 'mid') => random.chance(shares[name] / UPSET_JOBS_SHARE) && upset;
  const mid = drawn('mid');
  const names = scaleUpsetNames.filter((name) => drawn(name) || (mid && name === 're-zero'));
  const kept = names.filter((name) => name !== 'cylinder-change' || cylinderChange === undefined);
  return withHose(random, cylinderChange ? [...kept, 'cylinder-change'] : kept, mid);
}

/** The upsets of these names and no other. */
export function askedScaleUpsets(random: Random, names: readonly ScaleUpset[]): ScaleUpsets {
  return withHose(random, names, random.chance(0.12));
}

function withHose(random: Random, names: readonly ScaleUpset[], mid: boolean): ScaleUpsets {
  const pull = drawHosePull(random);
  return {
    names: scaleUpsetNames.filter((name) => names.includes(name)),
    hose: names.includes('hose') ? pull : undefined,
    zeroed: names.includes('re-zero') ? (mid ? 'mid' : 'before') : undefined,
  };
}
