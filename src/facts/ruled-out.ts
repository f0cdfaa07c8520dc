import type { PerOpening } from '../physics/leak-ratios.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import { lossesByRise } from './leak-loss.ts';
import { bandOverVolume, type StandingCircuit, standingCircuit } from './standing-circuit.ts';
import { judgedTest, lossesByDrop, mostDrop } from './test-loss.ts';

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
  const disagreement = test && rise ? { tests_disagree: disagree(test, rise) } : {};
  const most = lesser(test?.most, rise?.most);
  if (most === undefined) return disagreement;
  const band = bandOverVolume(most, circuit.volume);
  return {
    ruled_out_low_kg_per_year: band.lowKgPerYear,
    ruled_out_high_kg_per_year: band.highKgPerYear,
    ruled_out_by: by(test?.most, rise?.most),
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

/** Whether what one test shows at least is above what the other shows at most, whatever the opening is like. */
function disagree(one: Bounds, other: Bounds): boolean {
  return isAbove(one.least, other.most) || isAbove(other.least, one.most);
}

function isAbove(least: PerOpening, most: PerOpening | undefined): boolean {
  if (most === undefined) return false;
  return least.molecular > most.molecular && least.hole > most.hole && least.laminar > most.laminar;
}

/** The lesser of two, for each sort of opening; either where there is no other. */
function lesser(one: PerOpening | undefined, other: PerOpening | undefined): PerOpening | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  return {
    molecular: Math.min(one.molecular, other.molecular),
    hole: Math.min(one.hole, other.hole),
    laminar: Math.min(one.laminar, other.laminar),
  };
}

/** Which test gives the lesser, of one at least. */
function by(test: PerOpening | undefined, rise: PerOpening | undefined): Facts['ruled_out_by'] {
  if (rise === undefined || isAbove(rise, test)) return 'pressure-test';
  return test === undefined || isAbove(test, rise) ? 'rise-test' : 'both';
}
