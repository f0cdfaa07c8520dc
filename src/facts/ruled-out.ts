import type { PerOpening } from '../physics/leak-ratios.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import { lossesByRise } from './leak-loss.ts';
import { bandOverVolume, type StandingCircuit, standingCircuit } from './standing-circuit.ts';
import { judgedTest, lossesByDrop, mostDrop } from './test-loss.ts';

type Opening = keyof PerOpening;

const openings: readonly Opening[] = ['molecular', 'hole', 'laminar'];

/** Between what a leak would lose, by one test [kg/year], each end of a 95 % interval. */
interface Bounds {
  readonly least: PerOpening;
  /** Absent where the test does not bound it. */
  readonly most?: PerOpening;
}

/**
 * What pressure test and rise test together rule out.
 *
 * A leak is one opening, whatever its sort, so the sorts are taken one by one. For each, either test's upper end bounds
 * what the leak would lose, and the lesser of the two holds. Each end leaves out 2.5 of 100, so both hold together in at
 * least 95 of 100 (Bonferroni), however the tests' errors hang together. The band is the least and the most over the
 * sorts, wider by the spread of the volume, which is the same for both tests. With one test alone it is that test's band.
 * A sort for which one test shows more than the other leaves room for is none that the leak can have; where that is so of
 * every sort the tests disagree, and nothing is ruled out.
 *
 * A rise that left the range of the gauge has no upper end. Either test is blind to what the other sees: a joint that
 * opens only under pressure, a seal that is sucked open.
 *
 * @returns nothing where volume or refrigerant is not known, or no test bounds the leak; whether the tests disagree
 *   wherever there are both
 */
export function ruledOutFacts(facts: Partial<Facts>, job: Job | undefined): Partial<Facts> {
  const circuit = standingCircuit(facts, job);
  if (circuit === undefined) return {};
  const [test, rise] = [boundsByTest(facts, job, circuit), boundsByRise(facts, circuit)];
  const possible = openings.filter((opening) => !disagree(opening, test, rise) && !disagree(opening, rise, test));
  const disagreement = test && rise ? { tests_disagree: possible.length === 0 } : {};
  const most = possible.flatMap((opening) => {
    const [byTest, byRise] = [test?.most?.[opening], rise?.most?.[opening]];
    const lesser = Math.min(byTest ?? Number.POSITIVE_INFINITY, byRise ?? Number.POSITIVE_INFINITY);
    return lesser === Number.POSITIVE_INFINITY ? [] : [[opening, lesser] as const];
  });
  if (most.length === 0) return disagreement;
  const band = bandOverVolume(Object.fromEntries(most), circuit.volume);
  return {
    ruled_out_low_kg_per_year: band.lowKgPerYear,
    ruled_out_high_kg_per_year: band.highKgPerYear,
    ruled_out_by: by(possible, test?.most, rise?.most),
    ...disagreement,
  };
}

function boundsByTest(facts: Partial<Facts>, job: Job | undefined, circuit: StandingCircuit): Bounds | undefined {
  const { pressure_drop_low_pa: low, pressure_drop_high_pa: high } = facts;
  const test = judgedTest(facts, job);
  if (test === undefined || low === undefined || high === undefined) return undefined;
  return { least: lossesByDrop(low, test, circuit), most: lossesByDrop(mostDrop(low, high), test, circuit) };
}

function boundsByRise(facts: Partial<Facts>, circuit: StandingCircuit): Bounds | undefined {
  const { leak_low_pa_per_s: low, leak_high_pa_per_s: high, isolation_over: over } = facts;
  if (low === undefined || high === undefined) return undefined;
  return { least: lossesByRise(low, circuit), ...(over === true ? {} : { most: lossesByRise(high, circuit) }) };
}

/** Whether what one test shows at least is above what the other shows at most, through that sort of opening. */
function disagree(opening: Opening, one: Bounds | undefined, other: Bounds | undefined): boolean {
  return one !== undefined && one.least[opening] > (other?.most?.[opening] ?? Number.POSITIVE_INFINITY);
}

/** Which test gives the lesser, of one at least. */
function by(
  possible: readonly Opening[],
  test: PerOpening | undefined,
  rise: PerOpening | undefined,
): Facts['ruled_out_by'] {
  const isLess = (one: PerOpening, other: PerOpening) => possible.every((opening) => one[opening] < other[opening]);
  if (test === undefined) return 'rise-test';
  if (rise === undefined || isLess(test, rise)) return 'pressure-test';
  return isLess(rise, test) ? 'rise-test' : 'both';
}
