import type { RunRecording, SaturationGap, SaturationPoint } from '../charts/run-recording.ts';
import { knownSaturation } from '../facts/known-saturation.ts';
import { saturationPa } from '../facts/run-test/refrigerant-facts.ts';
import type { RunEvidence, RunMeans } from '../pages/job-evidence-data.ts';
import type { Facts } from '../records/tables/facts.ts';
import { decimate } from '../traces/decimate.ts';
import type { RunSeries } from '../traces/run-series.ts';

/** Readings of a trace that a page draws at most. */
const most = 300;
/** What was read so shortly before stands for a row on which it was not read [s]. Common practice, no source. */
const lastsS = 30;
/** Points of a saturation curve that a page draws. */
const curvePoints = 25;
/** It goes on beyond what was steady by this share of the range, and by so much at least [K]. */
const curveEdge = { ratio: 0.12, leastK: 4 } as const;

/** What a run test needs of a job's record. */
export interface RunRecord {
  /** Of the record; absent where it names none. */
  readonly refrigerant?: string | undefined;
  /** Pressure of the air at the site [Pa]. */
  readonly atmospherePa: number;
}

/**
 * The run test of a job, for its chart. Times count from its first reading.
 *
 * @param facts of the job; empty where it was not measured yet
 * @returns null where neither saturation nor a line is there to be drawn
 */
export function runEvidence(series: RunSeries, facts: Partial<Facts>, record: RunRecord): RunEvidence | null {
  const fromS = series.elapsedS[0] ?? 0;
  const isTwoPhase = facts.liquid_line_phase === 'two-phase';
  const trace = traceOf(series, record.refrigerant, isTwoPhase);
  if (trace === null) return null;
  const { steady_start_s: steadyS, steady_end_s: steadyEndS, run_start_s: startS } = facts;
  const superheat = gapOf(
    [facts.superheat_k, facts.superheat_low_k, facts.superheat_high_k],
    [facts.run_dew_k, facts.run_suction_line_k],
  );
  const subcooling = gapOf(
    [facts.subcooling_k, facts.subcooling_low_k, facts.subcooling_high_k],
    [facts.run_bubble_k, facts.run_liquid_line_k],
  );
  return {
    trace,
    atmospherePa: record.atmospherePa,
    startS: startS === undefined ? null : startS - fromS,
    steady:
      steadyS === undefined || steadyEndS === undefined ? null : { startS: steadyS - fromS, endS: steadyEndS - fromS },
    superheat,
    subcooling,
    isTwoPhase,
    means: meansOf(facts),
    curve: curveAround([superheat, subcooling], record.refrigerant),
  };
}

/** The saturation curve from below the coldest to above the warmest of what was steady; null where there is none. */
function curveAround(
  gaps: readonly (SaturationGap | null)[],
  refrigerant: string | undefined,
): SaturationPoint[] | null {
  const curve = knownSaturation(refrigerant);
  const pointsK = gaps.flatMap((gap) => (gap === null ? [] : [gap.saturationK, gap.lineK]));
  if (curve === undefined || pointsK.length === 0) return null;
  const [lowK, highK] = [Math.min(...pointsK), Math.max(...pointsK)];
  const edgeK = Math.max(curveEdge.leastK, curveEdge.ratio * (highK - lowK));
  const stepK = (highK - lowK + 2 * edgeK) / (curvePoints - 1);
  const points = Array.from({ length: curvePoints }, (_, index) => {
    const temperatureK = lowK - edgeK + index * stepK;
    return {
      temperatureK,
      dewPa: saturationPa(curve, temperatureK, 'dew'),
      bubblePa: saturationPa(curve, temperatureK, 'bubble'),
    };
  });
  // Beyond the end of the table there is nothing to draw.
  const known = points.filter(({ dewPa, bubblePa }) => !Number.isNaN(dewPa + bubblePa));
  return known.length < 2 ? null : known;
}

/** The four curves, thinned together, so that none loses a peak; null where there is none of them. */
function traceOf(series: RunSeries, refrigerant: string | undefined, isTwoPhase: boolean): RunRecording | null {
  const { elapsedS, columns } = series;
  const curve = knownSaturation(refrigerant);
  const kelvin = (celsius: Float64Array | undefined) => lasting(elapsedS, celsius)?.map((value) => value + 273.15);
  const saturationK = (pressurePa: Float64Array | undefined, at: ((pa: number) => number) | undefined) =>
    at === undefined ? undefined : lasting(elapsedS, pressurePa)?.map(at);
  const curves = {
    dewK: saturationK(columns.suction_pa, curve && ((pa) => curve.dewK(pa))),
    suctionLineK: kelvin(columns.suction_line_c),
    bubbleK: isTwoPhase ? undefined : saturationK(columns.liquid_pa, curve && ((pa) => curve.bubbleK(pa))),
    liquidLineK: isTwoPhase ? undefined : kelvin(columns.liquid_line_c),
  };
  const known = Object.values(curves).filter((values) => values?.some((value) => !Number.isNaN(value)));
  if (known.length === 0) return null;
  const rows = new Set(known.flatMap((values) => decimate(values ?? [], Math.floor(most / known.length))));
  const kept = [...rows].toSorted((a, b) => a - b);
  const of = (values: Float64Array | undefined) =>
    kept.map((row) => {
      const value = values?.[row] ?? Number.NaN;
      return Number.isNaN(value) ? null : Math.round(1000 * value) / 1000;
    });
  return {
    elapsedS: kept.map((row) => elapsedS[row] - elapsedS[0]),
    dewK: of(curves.dewK),
    suctionLineK: of(curves.suctionLineK),
    bubbleK: of(curves.bubbleK),
    liquidLineK: of(curves.liquidLineK),
  };
}

/** Gauges and clamps may read on rows of their own: what was read shortly before stands where nothing was. */
function lasting(elapsedS: Float64Array, values: Float64Array | undefined): Float64Array | undefined {
  let last = Number.NaN;
  let lastS = Number.NEGATIVE_INFINITY;
  return values?.map((value, row) => {
    if (Number.isNaN(value)) return elapsedS[row] - lastS <= lastsS ? last : Number.NaN;
    [last, lastS] = [value, elapsedS[row]];
    return value;
  });
}

function gapOf(
  [k, lowK, highK]: readonly (number | undefined)[],
  [saturationK, lineK]: readonly (number | undefined)[],
): SaturationGap | null {
  if (k === undefined || lowK === undefined || highK === undefined) return null;
  return saturationK === undefined || lineK === undefined ? null : { k, lowK, highK, saturationK, lineK };
}

/** Means over the steady stretch; null where there are none. */
function meansOf(facts: Partial<Facts>): RunMeans | null {
  if (facts.steady_start_s === undefined) return null;
  return {
    suctionPa: facts.run_suction_pa ?? null,
    dewK: facts.run_dew_k ?? null,
    suctionLineK: facts.run_suction_line_k ?? null,
    targetSuperheatK: facts.target_superheat_k ?? null,
    liquidPa: facts.run_liquid_pa ?? null,
    bubbleK: facts.run_bubble_k ?? null,
    liquidLineK: facts.run_liquid_line_k ?? null,
    targetSubcoolingK: facts.target_subcooling_k ?? null,
    outdoorK: facts.run_outdoor_k ?? null,
    indoorK: facts.run_indoor_k ?? null,
    indoorWetBulbK: facts.run_indoor_wet_bulb_k ?? null,
    splitK: facts.run_split_k ?? null,
    compressorW: facts.run_compressor_w ?? null,
  };
}
