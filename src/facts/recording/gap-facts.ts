import { type RecordedColumn, type RecordedPhase, recordedPhases } from '../../records/recording-columns.ts';
import type { Facts } from '../../records/tables/facts.ts';
import { runningW } from '../../traces/running-stretches.ts';
import type { ScannedSeries } from './scanned-series.ts';
import { usualInterval } from './usual-interval.ts';

// Common practice, no source.
/** A running system keeps its sides so far apart [ratio]. */
const apartRatio = 1.35;
/** Shorter than this nothing was missed [s] … */
export const leastGapS = 30;
/** … nor in less than so many of the log's own intervals. */
const leastTimes = 6;

interface Span {
  readonly phase: RecordedPhase;
  readonly columns: readonly RecordedColumn[];
  readonly fromS: number;
  readonly toS: number;
}

interface LostSpan extends Span {
  readonly count: number;
  readonly longestS: number;
  readonly startS: number;
  readonly usualS: number;
  readonly hiddenS: number;
}

/**
 * Where nothing was read for long against the log's own interval, within the stretches in which something is judged: how
 * often, how long, and how much of the stretch that loses most. A log that is coarse throughout has no gap.
 */
export function gapFacts(all: readonly ScannedSeries[], facts: Partial<Facts>): Partial<Facts> {
  const spans = spansOf(facts, all);
  if (spans.length === 0) return {};
  const gap_phases = recordedPhases.filter((name) => spans.some(({ phase }) => phase === name)).join(', ');
  const lost = spans.flatMap((span) => {
    const scanned = span.columns.map((name) => all.find(({ series }) => series.column === name)).find(Boolean);
    const found = scanned && lostIn(span, scanned);
    return found === undefined ? [] : [found];
  });
  const [worst] = lost.toSorted((a, b) => share(b) - share(a));
  if (worst === undefined) return { gap_phases };
  return {
    gap_phases,
    gap_count: worst.count,
    gap_phase: worst.phase,
    gap_longest_s: worst.longestS,
    gap_start_s: worst.startS,
    gap_usual_s: worst.usualS,
    gap_phase_s: worst.toS - worst.fromS,
    gap_hidden_ratio: share(worst),
  };
}

function share({ hiddenS, fromS, toS }: LostSpan): number {
  return Math.min(1, hiddenS / (toS - fromS));
}

/** What of a stretch lies in gaps of its column; undefined where nothing does. */
function lostIn(span: Span, { series, scan }: ScannedSeries): LostSpan | undefined {
  const { elapsedS, values } = series;
  let lost: LostSpan | undefined;
  for (const gap of scan.gaps) {
    const [fromS, toS] = [elapsedS[gap.fromIndex], elapsedS[gap.toIndex]];
    const withinS = Math.min(toS, span.toS) - Math.max(fromS, span.fromS);
    if (withinS < leastGapS) continue;
    const usualS = usualInterval(elapsedS, values, gap.fromIndex, gap.toIndex);
    if (!(toS - fromS >= leastTimes * usualS)) continue;
    const isLonger = lost === undefined || withinS > lost.longestS;
    lost = {
      ...span,
      count: (lost?.count ?? 0) + 1,
      hiddenS: (lost?.hiddenS ?? 0) + withinS,
      longestS: isLonger ? withinS : (lost?.longestS ?? 0),
      startS: isLonger ? fromS : (lost?.startS ?? 0),
      usualS: isLonger ? usualS : (lost?.usualS ?? 0),
    };
  }
  return lost;
}

/** The stretches in which something is judged, with the columns that tell of it, the first that was read. */
function spansOf(facts: Partial<Facts>, all: readonly ScannedSeries[]): Span[] {
  const vacuum = ['vacuum_pa'] as const;
  const pressures = ['suction_pa', 'liquid_pa', 'compressor_w', 'suction_line_c', 'liquid_line_c'] as const;
  const { pull_down_start_s: pullS, pull_down_s: tookS, isolation_start_s: isolatedS } = facts;
  const vacuumEndS = all.find(({ series }) => series.column === 'vacuum_pa')?.series.elapsedS.at(-1);
  const pumpedToS = isolatedS ?? vacuumEndS;
  const reachedS = pullS === undefined || tookS === undefined ? pumpedToS : pullS + tookS;
  const runS = facts.run_start_s;
  const spans: [RecordedPhase, readonly RecordedColumn[], number | undefined, number | undefined][] = [
    ['pull-down', vacuum, pullS, reachedS],
    ['hold', vacuum, tookS === undefined ? undefined : reachedS, pumpedToS],
    ['rise test', vacuum, isolatedS, facts.isolation_end_s],
    ['pressure test', ['test_pressure_pa'], facts.pressure_hold_start_s, facts.pressure_hold_end_s],
    ['charging', ['scale_kg'], facts.scale_flow_start_s, facts.scale_flow_end_s],
    ['run', pressures, runS && beganS(all, runS), runS === undefined ? undefined : runS + (facts.run_s ?? 0)],
  ];
  return spans.flatMap(([phase, columns, fromS, toS]) =>
    fromS !== undefined && toS !== undefined && toS > fromS ? [{ phase, columns, fromS, toS }] : [],
  );
}

/** A run parts at a long gap: where the system ran before it already, it began before [s]. */
function beganS(all: readonly ScannedSeries[], startS: number): number {
  const of = (name: RecordedColumn) => all.find(({ series }) => series.column === name);
  const power = of('compressor_w')?.series.values;
  const [liquid, suction] = [of('liquid_pa')?.series.values, of('suction_pa')?.series.values];
  const one = of('compressor_w') ?? of('liquid_pa') ?? of('suction_pa');
  const gap = one?.scan.gaps.find(({ toIndex }) => one.series.elapsedS[toIndex] === startS);
  if (one === undefined || gap === undefined) return startS;
  const fromW = runningW(power) ?? Number.POSITIVE_INFINITY;
  const runs = (row: number) =>
    power === undefined
      ? (liquid?.[row] ?? 0) > apartRatio * (suction?.[row] ?? Number.POSITIVE_INFINITY)
      : power[row] >= fromW;
  let from = gap.toIndex;
  for (let row = gap.fromIndex; row >= 0 && runs(row); row -= 1) from = row;
  return one.series.elapsedS[from];
}
