import type { Facts } from '../../records/tables/facts.ts';
import { scaleCourse } from '../../traces/scale-course.ts';
import type { ScaleSeries } from '../../traces/scale-series.ts';
import { hosePullKg, scaleRatio } from './weigh-in.ts';

// Common practice, no source.
/** Fewer readings tell nothing. */
const fewestReadings = 8;
/** A cylinder on a scale weighs no more [kg]: what does was read in another unit. */
const heaviestKg = 150;
/** A shift counts from so many steps on. */
export const countsFromSteps = 3;
/** A scale that rose by more before it fell had refrigerant recovered onto it: what was charged then is not told apart [kg]. */
const recoveredKg = 0.1;

/**
 * What the series of the scale tells: how much flowed off it, how often it was moved without a flow.
 *
 * @param stepKg step on record [kg]
 */
export function scaleFacts(series: ScaleSeries | undefined, stepKg: number | undefined): Partial<Facts> {
  if (series === undefined) return {};
  const count = series.scaleKg.length;
  if (count < fewestReadings) return { scale_readings: count, scale_problem: 'too-few-readings' };
  const { grain, flow, events, doubtful, isCut } = scaleCourse(series, stepKg);
  const moved = events.filter(({ asideKg }) => asideKg > countsFromSteps * grain.stepKg);
  // Grams or ounces: neither step nor noise is in kilograms.
  if (series.scaleKg.some((kg) => Math.abs(kg) > heaviestKg)) return { scale_readings: count, scale_problem: 'unit' };
  const common: Partial<Facts> = {
    scale_readings: count,
    scale_step_kg: grain.stepKg,
    scale_noise_kg: grain.noiseKg,
    scale_shifts: moved.length,
    ...(moved.length === 0 ? {} : { scale_largest_shift_kg: Math.max(...moved.map(({ asideKg }) => asideKg)) }),
  };
  if (flow === undefined) return { ...common, scale_problem: isCut ? 'cut' : 'no-flow' };
  const { fromS, toS, massKg, roseKg, before, after } = flow;
  if (roseKg > recoveredKg + 4 * grain.noiseKg) return { ...common, scale_problem: 'recovered' };
  if (massKg <= 0) return { ...common, scale_problem: 'no-flow' };
  const within = events.filter(
    ({ fromIndex, toIndex }) => series.elapsedS[toIndex] >= fromS && series.elapsedS[fromIndex] <= toS,
  );
  const pulls = within.filter(({ shiftKg }) => shiftKg !== 0 && Math.abs(shiftKg) <= hosePullKg);
  const uncertaintyKg = Math.hypot(
    grain.stepKg / Math.sqrt(6),
    grain.noiseKg * Math.sqrt(1 / before.readings + 1 / after.readings),
    scaleRatio * massKg,
    ...within.map((event) => event.uncertaintyKg),
  );
  return {
    ...common,
    scale_drop_kg: massKg,
    scale_drop_low_kg: massKg - 1.96 * uncertaintyKg,
    scale_drop_high_kg: massKg + 1.96 * uncertaintyKg,
    ...(doubtful.length === 0 ? {} : { scale_doubtful: JSON.stringify(doubtful.map(({ shiftKg }) => -shiftKg)) }),
    ...(pulls.length === 0 ? {} : { scale_pulls: JSON.stringify(pulls.map(({ shiftKg }) => shiftKg)) }),
    scale_flow_start_s: fromS,
    scale_flow_end_s: toS,
  };
}
