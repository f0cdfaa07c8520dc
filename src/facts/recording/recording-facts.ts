import type { Facts } from '../../records/tables/facts.ts';
import { clockFacts } from './clock-facts.ts';
import { gapFacts } from './gap-facts.ts';
import type { ScannedSeries } from './scanned-series.ts';
import { stuckFacts } from './stuck-facts.ts';
import { suspicionFacts, type UnitSuspicion } from './unit-suspicion.ts';

/** Fewer readings beyond the limits of use are slips of a sensor. Common practice, no source. */
const fewestOutside = 3;

/**
 * How the readings of a job were recorded: gaps, a clock that jumped, a stuck or clipped sensor, another unit, readings that
 * no job shows.
 *
 * @param facts of the readings, which tell what was going on when
 * @param units columns that look like another unit
 */
export function recordingFacts(
  all: readonly ScannedSeries[],
  facts: Partial<Facts>,
  units: readonly UnitSuspicion[],
): Partial<Facts> {
  if (all.length === 0) return {};
  const [unit] = units.toSorted((a, b) => Number(b.isSure) - Number(a.isSure));
  // In another unit of time nothing is told of gaps and clocks, and of a column in another unit nothing of its range.
  const isTimed = units.every(({ column }) => column !== 'elapsed_s');
  return {
    recorded_columns: all.length,
    ...(isTimed ? { ...gapFacts(all, facts), ...clockFacts(all) } : {}),
    ...(isTimed ? stuckFacts(all, facts) : {}),
    ...(unit === undefined ? {} : suspicionFacts(unit)),
    ...rangeFacts(all.filter(({ series }) => units.every(({ column }) => column !== series.column))),
  };
}

/** The column with the largest share of readings beyond what is plausible. */
function rangeFacts(all: readonly ScannedSeries[]): Partial<Facts> {
  const share = ({ scan }: ScannedSeries) => scan.outside / scan.readings;
  const [worst] = all.filter(({ scan }) => scan.outside >= fewestOutside).toSorted((a, b) => share(b) - share(a));
  if (worst === undefined) return {};
  const { series, scan } = worst;
  return { range_column: series.column, range_readings: scan.outside, range_worst: scan.worst };
}
