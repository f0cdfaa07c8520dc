import { median } from '../../numerics/median.ts';
import { waterVapourPressure } from '../../physics/index.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { VacuumPhase } from '../../traces/vacuum-phases.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import type { VacuumMaterial } from '../job-material.ts';
import { riseFit } from './rise-fit.ts';
import { riseSamples } from './rise-samples.ts';
import { riseShape } from './rise-shape.ts';

/** Where no clamp was read, water is taken to be no warmer than 40 °C [K]. Common practice, no source. */
const warmestK = 313.15;
/** Where the log begins isolated, the pump is taken to have been on for so long [s]. Common practice, no source. */
const usualPumpedS = 900;
/** Gauge and gas drift by this ratio of the pressure over a test. Common practice, no source. */
const driftRatio = 0.002;
/** Share of the gauge's accuracy that comes on top of a range of equally likely leaks. Common practice, no source. */
const onTop = 0.7;
/** 1.96 deviations for what is claimed, 0.84 more so that four of five are found. */
const powerDeviations = 1.96 + 0.8416;

/** An isolation as it was found, and the pressures at its ends. */
export interface FoundIsolation {
  readonly phase: VacuumPhase;
  /** Last reading that is in range. */
  readonly lastIndex: number;
  readonly isolationPa: number;
  /** How long the pump had been on before [s]; undefined where the log begins isolated. */
  readonly pumpedS: number | undefined;
}

/** What a rise is made of, and what it could not have shown. */
export function riseFacts(
  series: VacuumSeries,
  { phase, lastIndex, isolationPa, pumpedS }: FoundIsolation,
  { job, line }: VacuumMaterial,
  accuracyRatio: number,
): Partial<Facts> {
  const { fromIndex, startS } = phase;
  const before = fromIndex === 0 ? undefined : levelBefore(series, fromIndex, isolationPa);
  const samples = riseSamples(series, fromIndex + 1, lastIndex, startS, before);
  if (samples === undefined) return { rise_shape: 'undecided' };
  const fit = riseFit(samples, {
    pumpedS: Math.max(60, pumpedS ?? usualPumpedS),
    mostVapourPa: Math.max(1, waterVapourPressure(line?.meanK ?? warmestK) - isolationPa),
  });
  if (fit === undefined) return { rise_shape: 'undecided' };
  const { testS, leakPaPerS } = fit;
  const meanPa = fit.profile.meanPa;
  const noisePa = samples.noiseRatio * meanPa * Math.sqrt((8 * fit.scale) / samples.independent);
  const driftPaPerS = (driftRatio * meanPa) / testS;
  const { leak, likelyLeak } = fit;
  // An end of the fit's interval may be as likely as its middle: then the gauge's accuracy comes on top of it.
  const widened = (likely: number, end: number) =>
    Math.max(
      Math.hypot(end - likely, accuracyRatio * likely, 1.96 * driftPaPerS),
      Math.abs(end - likely) + onTop * accuracyRatio * end,
    );
  const low = likelyLeak.low - widened(likelyLeak.low, leak.low);
  return {
    leak_pa_per_s: leakPaPerS,
    leak_low_pa_per_s: leak.low > 0 ? Math.max(0, low) : 0,
    leak_high_pa_per_s: likelyLeak.high + widened(likelyLeak.high, leak.high),
    smallest_leak_seen_pa_per_s: Math.hypot(fit.visibleLeakPaPerS, powerDeviations * driftPaPerS),
    leak_rise_pa: leakPaPerS * testS,
    leak_rise_low_pa: fit.leak.low * testS,
    leak_rise_high_pa: fit.leak.high * testS,
    vapour_rise_pa: fit.vapourRisePa,
    settling_rise_pa: fit.settlingRisePa,
    rise_noise_ratio: samples.noiseRatio,
    ...(fit.saturatingS === 0 ? {} : { rise_time_constant_s: fit.saturatingS }),
    rise_shape: riseShape(fit, {
      isolationPa,
      levelLimitPa: job?.rise_limit_kind === 'level' ? job.rise_limit_pa : undefined,
      accuracyRatio,
      noisePa,
    }),
  };
}

function levelBefore({ vacuumPa }: VacuumSeries, fromIndex: number, isolationPa: number) {
  const readings = vacuumPa.subarray(Math.max(0, fromIndex - 9), fromIndex + 1);
  const apart = readings.map((pa) => Math.abs(pa - isolationPa));
  const deviation = (1.4826 * median(apart)) / Math.sqrt(Math.min(5, readings.length));
  return { pa: isolationPa, deviationPa: Math.max(1.2 * deviation, 0.004 * isolationPa) };
}
