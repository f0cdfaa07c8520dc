import type { Random } from '../../numerics/random.ts';
import type { CopiedGauge } from './copied-gauge.ts';

/** A pressure curve that somebody may hand in once more. */
export interface CopiedCurve {
  /** [s], ascending. */
  readonly elapsedS: Float64Array;
  /** As shown [Pa]: NaN not read, +Infinity above the range. */
  readonly pa: Float64Array;
  /** Of the pipe clamp, row by row [°C]; absent where it does not come along. */
  readonly lineC?: Float64Array;
  /** The gauge that logged it. */
  readonly by: CopiedGauge;
}

type Change = <Curve extends CopiedCurve>(curve: Curve, random: Random) => Curve;

/** Three fifths of the readings, from anywhere. */
const trimmed: Change = (curve, random) => {
  const rows = Math.round(0.6 * curve.pa.length);
  const from = Math.floor(random.uniform(0, curve.pa.length - rows + 0.999));
  return {
    ...curve,
    elapsedS: curve.elapsedS.slice(from, from + rows),
    pa: curve.pa.slice(from, from + rows),
    ...(curve.lineC && { lineC: curve.lineC.slice(from, from + rows) }),
  };
};

const later: Change = (curve, random) => {
  const byS = random.uniform(-3600, 86_400);
  return { ...curve, elapsedS: curve.elapsedS.map((atS) => Math.round((atS + byS) * 10) / 10) };
};

/** Up to 3 % more or less, shown in the steps of the gauge. */
const rescaled: Change = (curve, random) => {
  const ratio = random.uniform(0.97, 1.03);
  return { ...curve, pa: curve.pa.map((pa) => curve.by.shown(pa * ratio)) };
};

/** With noise like the gauge's own once more, shown in its steps. */
const noisy: Change = (curve, random) => ({ ...curve, pa: curve.by.noisy(curve.pa, random).map(curve.by.shown) });

const changed =
  (...changes: readonly Change[]): Change =>
  (curve, random) =>
    changes.reduce((so, change) => change(so, random), curve);

/** What somebody does to a curve who hands it in once more. */
export const copyKinds: Readonly<Record<string, Change>> = {
  exact: changed(),
  'trimmed to 60 %': trimmed,
  'shifted in time': later,
  'scaled by up to 3 %': rescaled,
  're-noised': noisy,
  'trimmed, shifted and scaled': changed(trimmed, later, rescaled),
  'shifted, scaled and re-noised': changed(later, rescaled, noisy),
  'trimmed and re-noised': changed(trimmed, noisy),
  'all of it': changed(trimmed, later, rescaled, noisy),
};

/** A copy of a curve. */
export function copyOf<Curve extends CopiedCurve>(curve: Curve, kind: string, random: Random): Curve {
  return copyKinds[kind](curve, random);
}
