export type RiseShape = 'dry' | 'leak' | 'moisture' | 'mixed' | 'settling' | 'absent';

/** What a rise was truly made of [Pa]. */
export interface RiseParts {
  readonly startPa: number;
  readonly leakPa: number;
  /** Water and other outgassing together: nothing in a trace tells them apart. */
  readonly vapourPa: number;
  readonly settlingPa: number;
}

/** Without a level limit, a rise below 10 µm is dry [Pa]. */
const DRY_PA = 1.33322368;
/** A part that makes up less than that of leak and vapour together does not count. */
const SMALL_SHARE = 0.2;

/**
 * The true shape of a rise, from its parts.
 *
 * `dry` is a matter of size: the whole rise, and the leak's part of it, under a tenth of the room between the isolation
 * pressure and the level limit (no level limit: under 10 µm). Else `settling` where leak and vapour together are under
 * that bound, and otherwise `leak`, `moisture` or `mixed` by their shares.
 *
 * @param levelLimitPa the job's recorded level limit [Pa]; undefined where it has none
 */
export function riseShape(parts: RiseParts, levelLimitPa: number | undefined): RiseShape {
  const boundPa = levelLimitPa === undefined ? DRY_PA : Math.max(0, levelLimitPa - parts.startPa) / 10;
  const comingInPa = parts.leakPa + parts.vapourPa;
  if (comingInPa + parts.settlingPa < boundPa && parts.leakPa < boundPa) return 'dry';
  if (comingInPa < Math.max(boundPa, 0.2 * parts.settlingPa)) return 'settling';
  if (parts.vapourPa < SMALL_SHARE * comingInPa) return 'leak';
  if (parts.leakPa < SMALL_SHARE * comingInPa) return 'moisture';
  return 'mixed';
}

/**
 * The shape that a rise would have were its slow settling moisture: as right as the other one, for nothing in a rise tells
 * the two apart.
 *
 * @param slowPa the share of `settlingPa` that is as slow as moisture
 */
export function slowAsMoistureShape(parts: RiseParts, slowPa: number, levelLimitPa: number | undefined): RiseShape {
  return riseShape(
    { ...parts, settlingPa: parts.settlingPa - slowPa, vapourPa: parts.vapourPa + slowPa },
    levelLimitPa,
  );
}
