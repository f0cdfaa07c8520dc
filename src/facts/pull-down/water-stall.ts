import { waterVapourPressure } from '../../physics/water-vapour-pressure.ts';
import { water } from '../../physics/water.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import { gaugeAccuracy, usualAccuracyRatio } from '../gauge-accuracy.ts';
import type { VacuumMaterial } from '../job-material.ts';
import type { LastPull } from './last-pull.ts';
import { lineFacts } from '../line-facts.ts';
import type { PullDownProfile } from './pull-down-profile.ts';
import { pullStands } from './pull-stands.ts';

// What follows is common practice, no source.
/** How far the pipe where the water stands may be from the clamp [K]. */
const marginK = 2;
/** Below the vapour pressure at the pipe a stand may be down to this ratio of it, or to the triple point. */
const leastOfVapour = 0.2;
/** Gauges that tell pressure by conduction of heat read water vapour up to so many times too high; from memory. */
const thermalOverreading = 2;
/** Where no clamp was read a pipe may be so warm [K]. */
const warmestPipeK = 308.15;

type Material = Pick<VacuumMaterial, 'job' | 'gauge' | 'line'>;

/** Pressures at which water may hold a pull [Pa]. */
interface WaterBand {
  readonly leastPa: number;
  readonly mostPa: number;
  /** From here up it is the vapour pressure at the pipe itself. */
  readonly atPipePa: number;
  /** Whether a pipe temperature stands behind these. */
  readonly isKnown: boolean;
}

/**
 * The longest stall of the last pull that water explains: the falling pressure stands, and later falls on as fast as the
 * pump takes it.
 *
 * Only a source that runs out makes a pull stand and then go on (`pullStands`). Water is told from other such sources by
 * where the pressure stands: at its vapour pressure at the pipe (2 K either way and the gauge's accuracy; up to twice as
 * high on thermal gauges and those of unknown kind, which read water too high) or below, since boiling water cools below
 * its pipe and its vapour loses pressure on the way: down to the triple point or a fifth of that pressure, whichever is
 * less. Near the triple point it is called `ice`, unless the pipe itself is as cold, or the gauge sits at the pump.
 *
 * Without a pipe temperature only the triple point can be named. A stand between it and the vapour pressure at 35 °C is
 * then returned without `stall_at`: something boiled off, and nothing says that it was water.
 *
 * A stand to the very end of the pumping is none: a leak or a valve left open holds the pressure as well. A valve shut
 * for a while in the midst of a pull looks the same as a stall, unless the pressure rises meanwhile. What boils above
 * the gauge's range is not seen.
 *
 * @param profile of the same pull
 * @returns `stall_start_s`, `stall_s`, `stall_pa` (mean) and `stall_at`; nothing where there is no stall
 *
 * Accuracy: of 1200 simulated pulls with standing water and a gauge at the system 990 show a stall of 25 s or more in its
 * range and the band; 954 are found, most ends within 4 s. Of 1200 without water none is. One stall in ten is called
 * `ice` there, though the simulation knows none: a vapour that lost pressure on its way happens to be near the triple point.
 */
export function waterStall(
  series: VacuumSeries,
  pull: LastPull,
  profile: PullDownProfile,
  material: Material,
): Partial<Facts> {
  const accuracy = gaugeAccuracy(material) ?? usualAccuracyRatio;
  const { leastPa, mostPa, atPipePa, isKnown } = waterBand(material, accuracy);
  let stall: Partial<Facts> = {};
  for (const { startS, lastsS, standsPa } of pullStands(series, pull, profile, leastPa)) {
    if (standsPa < leastPa || standsPa > mostPa || lastsS <= (stall.stall_s ?? 0)) continue;
    const isTriple = Math.abs(standsPa / water.triplePa - 1) <= accuracy && material.job?.gauge_position !== 'pump';
    const at = isTriple && standsPa < atPipePa ? 'ice' : isKnown ? 'vapour' : undefined;
    stall = {
      stall_start_s: startS,
      stall_s: lastsS,
      stall_pa: standsPa,
      ...(at === undefined ? {} : { stall_at: at }),
    };
  }
  return stall;
}

function waterBand({ gauge, line }: Material, accuracy: number): WaterBand {
  const { line_k: meanK, line_low_k: lowK } = lineFacts(line);
  if (meanK === undefined || lowK === undefined) {
    const leastPa = water.triplePa * (1 - accuracy);
    return { leastPa, mostPa: waterVapourPressure(warmestPipeK), atPipePa: Number.POSITIVE_INFINITY, isKnown: false };
  }
  const coldPa = waterVapourPressure(lowK - marginK);
  const overreading = gauge?.kind === 'capacitance' ? 1 : thermalOverreading;
  return {
    leastPa: Math.min(leastOfVapour * coldPa, water.triplePa * (1 - accuracy)),
    mostPa: overreading * waterVapourPressure(meanK + marginK) * (1 + accuracy),
    atPipePa: coldPa * (1 - accuracy),
    isKnown: true,
  };
}
