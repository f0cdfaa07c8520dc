import type { FittedRise } from '../charts/fitted-rise.ts';
import type { VacuumMaterial } from '../facts/job-material.ts';
import { foundIsolation } from '../facts/rise/found-isolation.ts';
import { type MakeUp, riseAt } from '../facts/rise/make-up.ts';
import { isolationFit } from '../facts/rise/rise-facts.ts';
import type { RiseSamples } from '../facts/rise/rise-samples.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { VacuumPhase } from '../traces/vacuum-phases.ts';
import type { VacuumSeries } from '../traces/vacuum-series.ts';

/** Points of a curve that is drawn, denser at its start, where a rise bends most. */
const curvePoints = 48;

/** A job's readings and phases, its facts, and what the fit rests on. */
export interface MeasuredRecording {
  readonly series: VacuumSeries;
  readonly phases: readonly VacuumPhase[];
  readonly facts: Partial<Facts>;
  readonly material: Pick<VacuumMaterial, 'job' | 'gauge' | 'line'>;
}

/**
 * The curve that was fitted to the judged isolation, for drawing.
 *
 * The facts hold the steady part and the plateau; they are handed on. They do not hold every part that slackens, so the
 * curve itself is fitted again, to the same readings.
 *
 * @returns null where nothing was fitted
 */
export function fittedRise({ series, phases, facts, material }: MeasuredRecording): FittedRise | null {
  const { leak_pa_per_s, leak_low_pa_per_s, leak_high_pa_per_s, plateau_pa } = facts;
  if (leak_pa_per_s === undefined || leak_low_pa_per_s === undefined || leak_high_pa_per_s === undefined) return null;
  const isolation = foundIsolation(series, phases);
  if (isolation === undefined) return null;
  const fitted = isolationFit(series, isolation, material);
  if (fitted === undefined) return null;
  const { samples, fit } = fitted;
  const endS = series.elapsedS[isolation.lastIndex] - isolation.phase.startS;
  const sinceS = Array.from({ length: curvePoints + 1 }, (_, point) => endS * (point / curvePoints) ** 2);
  const startPa = startOf(samples, fit.makeUp);
  return {
    sinceS,
    fittedPa: sinceS.map((since) => startPa + riseAt(fit.makeUp, since)),
    leakPaPerS: leak_pa_per_s,
    leakLowPaPerS: leak_low_pa_per_s,
    leakHighPaPerS: leak_high_pa_per_s,
    plateau:
      plateau_pa === undefined
        ? null
        : { pa: plateau_pa, lowPa: facts.plateau_low_pa ?? plateau_pa, highPa: facts.plateau_high_pa ?? null },
  };
}

/** The pressure from which the parts rise [Pa]: what is left of the readings without them. */
function startOf({ sinceS, vacuumPa, weights }: RiseSamples, makeUp: MakeUp): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < vacuumPa.length; i += 1) {
    sum += weights[i] * (vacuumPa[i] - riseAt(makeUp, sinceS[i]));
    total += weights[i];
  }
  return sum / total;
}
