import type { RecordedColumn } from '../../records/recording-columns.ts';
import type { Facts } from '../../records/tables/facts.ts';
import { caughtUp } from './caught-up.ts';
import type { ScannedSeries } from './scanned-series.ts';
import { noiseShare, type Stretch } from './noise-share.ts';

type Sign = NonNullable<Facts['stuck_sign']>;

interface Stuck extends Stretch {
  readonly sign: Sign;
  readonly readings: number;
}

// Common practice, no source; set on simulated jobs (tests/truth).
/** One value is looked at from so many readings on, over so long [s]. */
const fewest = 40;
const shortestS = 60;
/** Elsewhere at about that value so large a share of the readings bends by three steps and more. */
const noisyShare = 0.3;
/** A run in which a column should have moved lasts so long [s] … */
const longRunS = 600;
/** … and the start of it shows so long before and after it [s]. */
const beforeS = 20;
const afterS = 120;
/** Another pressure moved by this ratio meanwhile. */
const movedRatio = 0.15;

const runPressures = ['suction_pa', 'liquid_pa'] as const;
/** What no system keeps to the last digit while it starts and runs. */
const moving: readonly RecordedColumn[] = [...runPressures, 'suction_line_c', 'liquid_line_c', 'compressor_w'];

/**
 * A column that repeats one value for longer than its sensor can have: its own noise, what it catches up afterwards, or a
 * run in which it must have moved tells. A sensor that is quieter than its step is not accused.
 */
export function stuckFacts(all: readonly ScannedSeries[], facts: Partial<Facts>): Partial<Facts> {
  for (const one of all) {
    const found = stuckIn(one, all, facts);
    if (found === undefined) continue;
    const { elapsedS } = one.series;
    return {
      stuck_column: one.series.column,
      stuck_sign: found.sign,
      stuck_readings: found.readings,
      stuck_start_s: elapsedS[found.fromIndex],
      stuck_s: elapsedS[found.toIndex] - elapsedS[found.fromIndex],
    };
  }
  return {};
}

function stuckIn(one: ScannedSeries, all: readonly ScannedSeries[], facts: Partial<Facts>): Stuck | undefined {
  const { series, scan } = one;
  const { equal } = scan;
  if (equal === undefined || equal.readings < fewest) return undefined;
  const { elapsedS, column } = series;
  if (elapsedS[equal.toIndex] - elapsedS[equal.fromIndex] < shortestS) return undefined;
  if (scan.least === scan.most) return isAllAlong(one, all, facts) ? { ...equal, sign: 'all-along' } : undefined;
  if (isThroughStart(one, all, facts)) return { ...equal, sign: 'start' };
  // A scale is quiet once nobody touches it, and a column of zeros is one that rests.
  if (column !== 'scale_kg' && Math.abs(equal.value) > 2 * scan.step) {
    const within = sameState(one, facts);
    if (within !== undefined && noiseShare(series, equal, scan.step, within) >= noisyShare) {
      const sign = equal.value === scan.most ? 'ceiling' : equal.value === scan.least ? 'floor' : 'noise';
      return { ...equal, sign };
    }
  }
  return caughtUp(series, equal, scan.step) ? { ...equal, sign: 'caught-up' } : undefined;
}

/** The stretch in which noise is like that of the repeated value: a pump and a compressor make their own. */
function sameState({ series, scan }: ScannedSeries, facts: Partial<Facts>): Stretch | undefined {
  const { equal } = scan;
  const { column, elapsedS } = series;
  const whole = { fromIndex: 0, toIndex: elapsedS.length - 1 };
  if (equal === undefined || column === 'test_pressure_pa' || column === 'line_c') return whole;
  const [fromS, toS] = [elapsedS[equal.fromIndex], elapsedS[equal.toIndex]];
  const spans: [number | undefined, number | undefined][] =
    column === 'vacuum_pa'
      ? [
          [facts.isolation_start_s, facts.isolation_end_s],
          [facts.pull_down_start_s, facts.isolation_start_s ?? elapsedS[whole.toIndex]],
        ]
      : [[facts.run_start_s, (facts.run_start_s ?? Number.NaN) + (facts.run_s ?? Number.NaN)]];
  for (const [beginS, endS] of spans) {
    if (beginS === undefined || endS === undefined) continue;
    const sharedS = Math.min(toS, endS) - Math.max(fromS, beginS);
    if (sharedS < shortestS || sharedS < 0.8 * (toS - fromS)) continue;
    return {
      fromIndex: elapsedS.findIndex((atS) => atS >= beginS),
      toIndex: elapsedS.findLastIndex((atS) => atS <= endS),
    };
  }
  return undefined;
}

/** Whether a column of a running system shows one value from first to last while another pressure moved. */
function isAllAlong({ series, scan }: ScannedSeries, all: readonly ScannedSeries[], facts: Partial<Facts>): boolean {
  const { column, elapsedS } = series;
  if (!moving.includes(column) || scan.least === 0 || facts.run_start_s === undefined) return false;
  if ((facts.run_s ?? 0) < longRunS) return false;
  const startS = facts.run_start_s;
  const isSeen = elapsedS[0] <= startS - beforeS;
  return isSeen && otherMoved(column, all, elapsedS[0], startS + (facts.run_s ?? 0));
}

/** Whether a pressure repeats one value while the compressor starts, though the other side or the rest tell another one. */
function isThroughStart(one: ScannedSeries, all: readonly ScannedSeries[], facts: Partial<Facts>): boolean {
  const { column, elapsedS } = one.series;
  const { equal } = one.scan;
  const startS = facts.run_start_s;
  if (equal === undefined || startS === undefined || !runPressures.some((name) => name === column)) return false;
  const [fromS, toS] = [elapsedS[equal.fromIndex], elapsedS[equal.toIndex]];
  return fromS <= startS - beforeS && toS >= startS + afterS && otherMoved(column, all, fromS, toS);
}

/** Whether the pressure of the other side moved between two times [s]. */
function otherMoved(column: RecordedColumn, all: readonly ScannedSeries[], fromS: number, toS: number): boolean {
  return all.some(({ series }) => {
    if (series.column === column || !runPressures.some((name) => name === series.column)) return false;
    let least = Number.POSITIVE_INFINITY;
    let most = 0;
    for (let row = 0; row < series.values.length; row += 1) {
      if (series.elapsedS[row] < fromS || series.elapsedS[row] > toS) continue;
      least = Math.min(least, series.values[row]);
      most = Math.max(most, series.values[row]);
    }
    return most > least * (1 + movedRatio);
  });
}
