import type { Facts } from '../../records/tables/facts.ts';
import type { Weighing } from '../../records/tables/weighings.ts';
import type { JobRecords } from '../job-material.ts';

/** What left the cylinders for the system [kg]. */
export interface Drawn {
  readonly kg: number;
  /** Standard uncertainty [kg]. */
  readonly uncertaintyKg: number;
  readonly from: NonNullable<Facts['charged_from']>;
  /** The same by what was written down and by the scale's series, where there are both [kg]. */
  readonly enteredKg?: number;
  readonly seriesKg?: number;
  /** Whether some of it is what was let out again. */
  readonly isTrimmed?: boolean;
}

/** Steps of a scale of which none is on record [kg]. Common practice, no source. */
export const usualStepKg = 0.01;
/** What a scale shows is good to this ratio too. Common practice, no source. */
export const scaleRatio = 0.002;
/** Two figures of one mass differ by no more than so many steps. */
const agreeingSteps = 1.5;
/** A hose that was pulled, or a hand, moves a scale by so much at most without being seen in its series [kg]. */
export const hosePullKg = 0.1;
/** Doubtful steps that are tried one without the other. */
const mostSteps = 8;

/**
 * What left the cylinders: by the series of the scale and by what was written down, the weighings or the figure of the
 * record. Where they tell of one mass, both; a sudden step that may have been a hand or a hose counts where it makes them
 * agree. Where they differ, the written figure if the scale was moved, else the series: people write down what they meant to
 * charge.
 */
export function drawnMass(records: JobRecords, measured: Partial<Facts>): Drawn | undefined {
  const { job } = records;
  const stepKg = job?.scale_step_kg ?? measured.scale_step_kg ?? usualStepKg;
  const weighed = counted(records.weighings);
  const weighedKg = weighed.length === 0 ? undefined : weighed.reduce((sum, { kg }) => sum + kg, 0);
  const enteredKg = weighedKg ?? job?.weighed_in_kg;
  const entered: Drawn | undefined =
    enteredKg === undefined
      ? undefined
      : {
          kg: enteredKg,
          uncertaintyKg: Math.hypot(
            (stepKg * Math.sqrt(Math.max(1, weighed.length))) / Math.sqrt(6),
            scaleRatio * enteredKg,
          ),
          from: weighedKg === undefined ? 'record' : 'weighings',
          ...(weighed.some(({ isTrim }) => isTrim) ? { isTrimmed: true } : {}),
        };
  const { scale_drop_kg: dropKg, scale_drop_low_kg: lowKg = 0, scale_drop_high_kg: highKg = 0 } = measured;
  if (dropKg === undefined || measured.scale_problem !== undefined) return entered;
  const noiseKg = measured.scale_noise_kg ?? 0;
  const mostApartKg = agreeingSteps * stepKg + 3 * noiseKg + Math.min((highKg - lowKg) / 2, stepKg);
  const steps = listed(measured.scale_doubtful);
  const { kg, doubtKg, agrees } = withWritten(dropKg, steps, enteredKg, mostApartKg);
  const seriesKg = Math.hypot((highKg - lowKg) / (2 * 1.96), doubtKg);
  if (entered === undefined) return { kg, uncertaintyKg: seriesKg, from: 'scale' };
  const both = { enteredKg: entered.kg, seriesKg: kg };
  // Two readings of one mass, the written one with the noise of two single readings.
  if (agrees) {
    const enteredWeight = 1 / (entered.uncertaintyKg ** 2 + 2 * noiseKg ** 2);
    const seriesWeight = 1 / seriesKg ** 2;
    const meanKg = (kg * seriesWeight + entered.kg * enteredWeight) / (seriesWeight + enteredWeight);
    return { kg: meanKg, uncertaintyKg: seriesKg, from: 'scale', ...both };
  }
  // Who reads the display is fooled by a hose that pulls; the series is not.
  const isFooled = sums(listed(measured.scale_pulls)).some(
    (pullKg) => Math.abs(kg - entered.kg - pullKg) <= mostApartKg,
  );
  if (isFooled) return { kg, uncertaintyKg: seriesKg, from: 'scale', ...both };
  const apartKg = Math.abs(entered.kg - kg);
  const isMoved = entered.kg > 0 && ((measured.scale_shifts ?? 0) > 0 || steps.length > 0);
  if (isMoved) return { ...entered, uncertaintyKg: Math.hypot(entered.uncertaintyKg, apartKg / 8), ...both };
  return { kg, uncertaintyKg: Math.hypot(seriesKg, apartKg / 4), from: 'scale', ...both };
}

/** Figures of a fact that lists some. */
function listed(json: string | undefined): number[] {
  return json === undefined ? [] : (JSON.parse(json) as number[]).slice(0, mostSteps);
}

/** The sum of every subset, the empty one first. */
function sums(values: readonly number[]): number[] {
  return values.reduce<number[]>((all, value) => [...all, ...all.map((sum) => sum + value)], [0]);
}

/** The drop without those doubtful steps that the written figure leaves out; where it fits none, all stay, in doubt. */
function withWritten(
  dropKg: number,
  steps: readonly number[],
  enteredKg: number | undefined,
  mostApartKg: number,
): { kg: number; doubtKg: number; agrees: boolean } {
  const [best] = sums(steps)
    .map((leftKg) => ({ kg: dropKg - leftKg, apartKg: Math.abs(dropKg - leftKg - (enteredKg ?? Number.NaN)) }))
    .toSorted((a, b) => a.apartKg - b.apartKg);
  if (best.apartKg <= mostApartKg) return { kg: best.kg, doubtKg: 0, agrees: true };
  // Most steps are flow: of one in five a hand or a hose is the likelier.
  const doubtKg = Math.sqrt(0.2 * steps.reduce((sum, step) => sum + step * step, 0));
  return { kg: dropKg, doubtKg, agrees: false };
}

/**
 * The weighings in, less what was let out again after them. What was recovered before is no part of it: it was in there
 * before the job. The scale falls by what goes in and rises by what comes out.
 */
function counted(weighings: readonly Weighing[]): Counted[] {
  const found: Counted[] = [];
  for (const { direction, purpose, start_kg, end_kg, hose_residual_kg: residualKg } of inOrder(weighings)) {
    if (start_kg === undefined || end_kg === undefined) continue;
    const isTrim = direction === 'out' && found.length > 0 && purpose !== 'recovery';
    if (direction !== 'in' && !isTrim) continue;
    found.push({ kg: start_kg - end_kg, residualKg, isTrim });
  }
  return found;
}

/** A weighing that is part of the charge. */
interface Counted {
  readonly kg: number;
  readonly residualKg: number | undefined;
  /** Whether it is refrigerant let out again. */
  readonly isTrim: boolean;
}

/** Residual that the weighings record, or the job; undefined where none does [kg]. */
export function recordedResidual({ job, weighings }: JobRecords): number | undefined {
  const recorded = counted(weighings).flatMap(({ residualKg }) => (residualKg === undefined ? [] : [residualKg]));
  if (recorded.length > 0) return recorded.reduce((sum, kg) => sum + kg, 0);
  return job?.hose_residual_kg;
}

/** Weighings by their time; those without keep their place behind the others. */
function inOrder(weighings: readonly Weighing[]): Weighing[] {
  const timeOf = ({ at }: Weighing) => (at === undefined ? Number.POSITIVE_INFINITY : Date.parse(at));
  return [...weighings].sort((a, b) => (timeOf(a) === timeOf(b) ? 0 : timeOf(a) - timeOf(b)));
}
