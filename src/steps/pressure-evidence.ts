import type {
  CorrectedHold,
  DropRange,
  JudgedHoldSpan,
  PressureLimit,
  PressureRecording,
} from '../charts/pressure-recording.ts';
import { type TightCourse, tightCourse } from '../facts/pressure-test/tight-course.ts';
import type { PressureEvidence } from '../pages/job-evidence-data.ts';
import type { Facts } from '../records/tables/facts.ts';
import { decimate } from '../traces/decimate.ts';
import { pressureHolds } from '../traces/pressure-holds.ts';
import type { PressureSeries } from '../traces/pressure-series.ts';
import { withoutSpikes } from '../traces/without-spikes.ts';
import { type EvidenceByCheck, evidenceFigure } from './evidence-limits.ts';

/** Readings of a trace that a page draws at most … */
const most = 400;
/** … and of them, those that are kept for the judged hold, which has a chart of its own. */
const ofHold = 240;
/** Means of the judged part, temperature taken out, that a page draws at most. */
const mostMeans = 40;

/**
 * The standing pressure test of a job, for its charts. Times count from its first reading.
 *
 * @param facts of the job; empty where it was not measured yet
 * @param atmospherePa of the site [Pa]
 */
export function pressureEvidence(
  series: PressureSeries,
  facts: Partial<Facts>,
  evidence: EvidenceByCheck,
  atmospherePa: number,
): PressureEvidence {
  const fromS = series.elapsedS[0] ?? 0;
  const judged = judgedSpan(facts, fromS);
  const tight = tightCourse(series, facts);
  return {
    trace: trace(series, judged === null ? undefined : { from: fromS + judged.startS, to: fromS + judged.endS }),
    atmospherePa,
    highestPa: facts.highest_test_pa ?? null,
    holds: pressureHolds(series, atmospherePa).map(({ startS, endS }) => ({
      startS: startS - fromS,
      endS: endS - fromS,
    })),
    judged,
    line: lineOf(facts),
    corrected: tight === undefined ? null : correctedHold(tight, fromS),
    followingRatio: tight?.followingRatio ?? null,
    drop: dropOf(facts),
    limits: pressureLimits(evidence),
    allowedDropPa: evidenceFigure(evidence.get('pressure-not-held'), 'allowed_drop_pa') ?? null,
  };
}

function judgedSpan(facts: Partial<Facts>, fromS: number): JudgedHoldSpan | null {
  const { pressure_hold_start_s: startS, pressure_hold_end_s: endS, pressure_settled_s: settledS = startS } = facts;
  if (startS === undefined || endS === undefined || settledS === undefined) return null;
  return { startS: startS - fromS, settledS: settledS - fromS, endS: endS - fromS };
}

/** The series thinned; the judged hold, however short beside the rest, keeps enough readings for a chart of its own. */
function trace(
  { elapsedS, testPa }: PressureSeries,
  judged: { from: number; to: number } | undefined,
): PressureRecording {
  const count = elapsedS.length;
  const from = judged === undefined ? count : elapsedS.findIndex((atS) => atS >= judged.from);
  const to = judged === undefined ? count : elapsedS.findLastIndex((atS) => atS <= judged.to) + 1;
  const inside = to - from;
  const outside = count - inside;
  // What one of the two does not need the other may have.
  const shareInside = Math.min(inside, Math.max(ofHold, most - outside));
  const shareBefore = outside === 0 ? 0 : Math.round(((most - shareInside) * from) / outside);
  const kept = [
    ...thinned(testPa, 0, from, shareBefore),
    ...thinned(testPa, from, to, shareInside),
    ...thinned(testPa, to, count, most - shareInside - shareBefore),
  ];
  return {
    elapsedS: kept.map((at) => elapsedS[at] - elapsedS[0]),
    testPa: kept.map((at) => testPa[at]),
  };
}

function thinned(testPa: Float64Array, from: number, to: number, share: number): number[] {
  return from >= to ? [] : decimate(testPa.subarray(from, to), Math.max(2, share)).map((at) => from + at);
}

/** What was judged, in means; spikes of one reading are left out. */
function correctedHold({ judged, pressureAt }: TightCourse, fromS: number): CorrectedHold {
  const { elapsedS, testPa, lineK } = judged;
  const count = elapsedS.length;
  const bins = Math.min(mostMeans, count);
  const lastedS = elapsedS[count - 1] - elapsedS[0];
  const sums = Array.from({ length: bins }, () => ({ count: 0, s: 0, pa: 0, k: 0 }));
  const [cleanPa, cleanK] = [withoutSpikes(elapsedS, testPa), withoutSpikes(elapsedS, lineK)];
  for (let at = 0; at < count; at += 1) {
    const bin = sums[Math.min(bins - 1, Math.floor((bins * (elapsedS[at] - elapsedS[0])) / lastedS))];
    bin.count += 1;
    bin.s += elapsedS[at] - fromS;
    bin.pa += cleanPa[at];
    bin.k += cleanK[at];
  }
  const means = sums.flatMap((bin) => {
    if (bin.count === 0) return [];
    const expectedPa = pressureAt(bin.k / bin.count);
    return [{ elapsedS: bin.s / bin.count, expectedPa, besidePa: bin.pa / bin.count - expectedPa }];
  });
  return {
    elapsedS: means.map((mean) => mean.elapsedS),
    expectedPa: means.map((mean) => mean.expectedPa),
    besidePa: means.map((mean) => mean.besidePa),
  };
}

function lineOf(facts: Partial<Facts>): PressureEvidence['line'] {
  const { held_line_k: heldK, end_line_k: endK, coldest_line_k: coldestK, warmest_line_k: warmestK } = facts;
  if (heldK === undefined || endK === undefined || coldestK === undefined || warmestK === undefined) return null;
  return { heldK, endK, coldestK, warmestK };
}

function dropOf(facts: Partial<Facts>): DropRange | null {
  const { pressure_drop_pa: pa, pressure_drop_low_pa: lowPa, pressure_drop_high_pa: highPa } = facts;
  return pa === undefined || lowPa === undefined || highPa === undefined ? null : { pa, lowPa, highPa };
}

/** What was asked for, and what the system is rated for, as lines of the charts. */
function pressureLimits(evidence: EvidenceByCheck): PressureLimit[] {
  const target = evidence.get('test-pressure-not-reached');
  const design = evidence.get('test-pressure-over-design');
  const lines = [
    { label: 'target', pa: evidenceFigure(target, 'target_test_pa') },
    { label: 'low side rated', pa: evidenceFigure(design, 'low_test_pa') },
    { label: 'high side rated', pa: evidenceFigure(design, 'high_test_pa') },
  ];
  return lines.flatMap(({ label, pa }) => (pa === undefined ? [] : [{ label, pa }]));
}
