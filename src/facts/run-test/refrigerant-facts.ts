import { bracketedRoot } from '../../numerics/bracketed-root.ts';
import { normalShareBelow } from '../../numerics/normal-distribution.ts';
import type { FastSaturation } from '../../physics/tables/fast-saturation.ts';
import { fastSaturationOf } from '../../physics/tables/fast-saturation-of.ts';
import { saturationTables } from '../../physics/tables/saturation-tables.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import { pressureUncertainty } from './run-uncertainty.ts';
import { meantRefrigerant } from '../known-saturation.ts';
import type { RestState } from './rest-state.ts';

/** Means of a running system, as far as they tell what is in it; NaN where not read. */
export interface RunningState {
  readonly suctionPa: number;
  readonly liquidPa: number;
  readonly suctionLineK: number;
  readonly liquidLineK: number;
  readonly outdoorK: number;
  readonly indoorK: number;
}

// Common practice, no source; set on simulated systems.
/** Of a hundred systems so many hold another refrigerant than their record says, and so many hold air. */
const otherShare = 0.02;
const airShare = 0.03;
/** Air adds some per cent to the pressure at rest [ratio]. */
const airRatio = 0.04;
/** Spoken of where the record's refrigerant without air is no likelier than this. */
const doubtful = 0.25;
/** … and another one is not out of the question beside air. */
const least = 0.02;
/** Met so many times as often as any other refrigerant. */
const common: ReadonlySet<string> = new Set(['R-410A', 'R-32', 'R-454B', 'R-22', 'R-407C', 'R-134a']);
const commonTimes = 4;
/** Refrigerants whose pressures differ by less than so many standard uncertainties are not told apart. */
const alikeDeviations = 2;
/** A pressure at rest that is farther off than this from the best of them fits none. */
const fittingDeviations = 3.5;
/**
 * What a running system shows, whatever is wrong with it: its middle and its spread [K]. Tails are heavy: faults reach far.
 */
const running = {
  superheat: [7, 6],
  subcooling: [6, 5],
  overOutdoor: [11, 5],
  belowIndoor: [19, 6],
} as const;
const tailFreedom = 4;
/** As many spreads off counts a pressure at which a refrigerant has no saturation. */
const offTheCurve = 4;
/** No model of this is surer. */
const mostProbability = 0.99;

interface Candidate {
  readonly designation: string;
  readonly curve: FastSaturation;
}

const candidates: readonly Candidate[] = saturationTables
  .filter(({ designation }) => !['R-125', 'R-143a', 'R-1234ze(E)'].includes(designation))
  .map(({ designation }) => ({ designation, curve: fastSaturationOf(designation) }));

/** Whether pressures and temperatures, at rest and running, fit the refrigerant of the record, or which else. */
export function refrigerantFacts(
  job: Pick<Job, 'refrigerant' | 'pressure_accuracy_ratio'> | undefined,
  rest: RestState | undefined,
  run: RunningState | undefined,
): Partial<Facts> {
  const own = candidates.find(({ designation }) => designation === meantRefrigerant(job?.refrigerant ?? ''));
  if (own === undefined || (rest === undefined && run === undefined)) return {};
  const rests = rest === undefined ? undefined : candidates.map((one) => restDeviation(one, rest, job));
  const scores = candidates.map((one, nth) => {
    const restScore = rests === undefined ? 0 : -(rests[nth].deviation ** 2) / 2 - Math.log(rests[nth].uncertaintyPa);
    return restScore + (run === undefined ? 0 : runScore(one, run));
  });
  const ownPlace = candidates.indexOf(own);
  const ownWeight = Math.exp(scores[ownPlace]) * (1 - otherShare - airShare);
  const air = airWeight();
  const usual = ({ designation }: Candidate) => (common.has(designation) ? commonTimes : 1);
  const others = candidates.flatMap((one, nth) =>
    one === own ? [] : [{ one, usual: usual(one), weight: usual(one) * Math.exp(scores[nth]) }],
  );
  const usualSum = others.reduce((sum, other) => sum + other.usual, 0);
  const otherWeight = (others.reduce((sum, { weight }) => sum + weight, 0) * otherShare) / usualSum;
  const [best] = others.toSorted((a, b) => b.weight - a.weight);
  const total = ownWeight + air + otherWeight;
  const bestDeviation = rests?.[candidates.indexOf(best.one)].deviation ?? 0;
  const fits = Math.abs(bestDeviation) <= fittingDeviations;
  if (!(total > 0)) return {};
  return {
    ...(rest === undefined || rests === undefined
      ? {}
      : {
          rest_pa: rest.pressurePa,
          rest_k: rest.temperatureK,
          rest_expected_pa: rests[ownPlace].expectedPa,
          rest_deviation: rests[ownPlace].deviation,
        }),
    refrigerant_seen: rest === undefined ? 'run' : run === undefined ? 'rest' : 'both',
    likely_refrigerant_ratio: Math.min(mostProbability, otherWeight / total),
    air_ratio: air / total,
    ...(ownWeight / total > doubtful || otherWeight / total < least
      ? {}
      : fits
        ? { likely_refrigerant: best.one.designation }
        : { rest_fits_none: true }),
    ...(rest === undefined || rests === undefined ? {} : alikeFacts(own, rest, rests)),
  };

  /** The record's refrigerant with air in it: at rest its pressure is higher, exponentially distributed by some per cent. */
  function airWeight(): number {
    if (rest === undefined || rests === undefined) return airShare * Math.exp(scores[ownPlace]);
    const { expectedPa, uncertaintyPa } = rests[ownPlace];
    const excess = rest.pressurePa / expectedPa - 1;
    const spread = uncertaintyPa / expectedPa;
    const density =
      (Math.exp(spread ** 2 / (2 * airRatio ** 2) - excess / airRatio) *
        normalShareBelow(excess / spread - spread / airRatio)) /
      (airRatio * expectedPa);
    const runPart = run === undefined ? 0 : runScore(own as Candidate, run);
    return airShare * density * Math.sqrt(2 * Math.PI) * Math.exp(runPart);
  }
}

interface RestDeviation {
  readonly expectedPa: number;
  readonly uncertaintyPa: number;
  /** In standard uncertainties. */
  readonly deviation: number;
}

/** How far the pressure at rest is from that of a refrigerant; one that has no such saturation is infinitely far. */
function restDeviation(
  { curve }: Candidate,
  { pressurePa, temperatureK, uncertaintyK, gauges }: RestState,
  job: Pick<Job, 'pressure_accuracy_ratio'> | undefined,
): RestDeviation {
  const expectedPa = saturationPa(curve, temperatureK);
  const above = saturationPa(curve, temperatureK + uncertaintyK);
  const glidePa = Math.abs(saturationPa(curve, temperatureK, 'dew') - expectedPa);
  const gaugePa = pressureUncertainty(job, gauges > 1 ? 'liquid' : 'suction', pressurePa) / Math.sqrt(gauges);
  const uncertaintyPa = Math.hypot(above - expectedPa, glidePa / 4, gaugePa);
  const deviation = (pressurePa - expectedPa) / uncertaintyPa;
  return Number.isNaN(deviation)
    ? { expectedPa: 0, uncertaintyPa: 1, deviation: 1e3 }
    : { expectedPa, uncertaintyPa, deviation };
}

/** Where most of a charge is liquid, its pressure is that of the bubble point, or close to it [Pa]. */
export function saturationPa(curve: FastSaturation, temperatureK: number, side: 'bubble' | 'dew' = 'bubble'): number {
  const table = saturationTables.find(({ designation }) => designation === curve.designation);
  const { lowPa, highPa } = (side === 'dew' ? table?.dew : undefined) ?? table?.bubble ?? { lowPa: 1e4, highPa: 3e6 };
  const saturationK = (pa: number) => (side === 'dew' ? curve.dewK(pa) : curve.bubbleK(pa));
  const least = Math.max(lowPa * 1.001, 2e4);
  const most = highPa * 0.9;
  if (!(saturationK(least) < temperatureK && saturationK(most) > temperatureK)) return Number.NaN;
  return bracketedRoot((pa) => saturationK(pa) - temperatureK, least, most, 1e-9);
}

/** Logarithm of how likely a running system with that refrigerant shows these means. */
function runScore({ curve }: Candidate, run: RunningState): number {
  const dewK = curve.dewK(run.suctionPa);
  const bubbleK = curve.bubbleK(run.liquidPa);
  const parts = [
    [running.superheat, run.suctionLineK - dewK, run.suctionPa + run.suctionLineK],
    [running.subcooling, bubbleK - run.liquidLineK, run.liquidPa + run.liquidLineK],
    [running.overOutdoor, bubbleK - run.outdoorK, run.liquidPa + run.outdoorK],
    [running.belowIndoor, run.indoorK - dewK, run.suctionPa + run.indoorK],
  ] as const;
  let score = 0;
  for (const [[middle, spread], value, read] of parts) {
    // What was not read says nothing; a pressure off the curve is far off.
    if (Number.isNaN(read)) continue;
    const z = Number.isNaN(value) ? offTheCurve : (value - middle) / spread;
    score -= ((tailFreedom + 1) / 2) * Math.log(1 + (z * z) / tailFreedom);
  }
  return score;
}

function alikeFacts(own: Candidate, rest: RestState, rests: readonly RestDeviation[]): Partial<Facts> {
  const ownPa = saturationPa(own.curve, rest.temperatureK);
  const alike = candidates.filter((one, nth) => {
    if (one === own) return false;
    const { expectedPa, uncertaintyPa } = rests[nth];
    return Math.abs(expectedPa - ownPa) < alikeDeviations * uncertaintyPa;
  });
  return alike.length === 0 ? {} : { refrigerants_alike: alike.map(({ designation }) => designation).join(', ') };
}
