import { DryholdError } from '../../errors.ts';
import type { LossBand } from '../../physics/loss-in-operation.ts';
import { refrigerantDesignations } from '../../physics/refrigerants/refrigerant-named.ts';
import { bandOverVolume, type StandingCircuit } from '../standing-circuit.ts';
import { lossesByRise } from '../leak-loss.ts';
import { standingVapour } from '../standing-vapour.ts';
import { plannedVolume } from './planned-volume.ts';
import { type PlannedPressureRow, pressureTestSight } from './pressure-test-sight.ts';
import { type PlannedRiseTest, riseTestSight } from './rise-test-sight.ts';
import { shortestLength } from './shortest-length.ts';
import type { TestPlan } from './test-plan.ts';

/** A steady climb that a rise test sees, and what a leak of it would lose. */
export interface PlannedClimb extends LossBand {
  readonly paPerS: number;
}

/** The smallest leak that a rise test of a length sees; undefined where its readings are too few. */
export interface PlannedRiseRow {
  readonly durationS: number;
  /** The least steady climb that shows at all. */
  readonly shown: PlannedClimb | undefined;
  /** The least that no outgassing could pass for. */
  readonly told: PlannedClimb | undefined;
}

/** How long a test must be to see a leak [s]; undefined where `mostLengthS` does not do. */
export interface NeededLength {
  /** For an opening of the sort that the test sees best. */
  readonly atBestS: number | undefined;
  /** Whatever the opening is like. */
  readonly atWorstS: number | undefined;
}

/** How long each planned test must be to see a leak. */
export interface NeededLengths {
  readonly pressureTest?: NeededLength;
  readonly riseShown?: NeededLength;
  readonly riseTold?: NeededLength;
}

/** What is asked of a plan. */
export interface PlanQuestion {
  /** Lengths to answer [s], rising. */
  readonly durationsS: readonly number[];
  /** A leak to find the lengths for [kg/year]. */
  readonly lossKgPerYear?: number | undefined;
}

/** What the tests of a plan would see; no rows of a test that is not planned. */
export interface PlanAnswer {
  readonly pressureRows: readonly PlannedPressureRow[];
  readonly riseRows: readonly PlannedRiseRow[];
  readonly needed?: NeededLengths;
}

/**
 * What planned tests would see, as the facts of their logs would say it.
 *
 * @throws DryholdError `unknown-refrigerant` where its vapour is not known; `out-of-range` unless the volume is above 0
 *
 * Accuracy: as `leakLoss`: an order of magnitude.
 */
export function planAnswer(plan: TestPlan, { durationsS, lossKgPerYear }: PlanQuestion): PlanAnswer {
  const circuit = plannedCircuit(plan);
  const pressureAt = plan.pressureTest && pressureTestSight(plan.pressureTest, circuit);
  const riseAt = plan.riseTest && riseRow(plan.riseTest, circuit);
  const lengthFor = (lossAt: (durationS: number) => LossBand | undefined, wantedKgPerYear: number): NeededLength => ({
    atBestS: shortestLength((durationS) => lossAt(durationS)?.lowKgPerYear, wantedKgPerYear),
    atWorstS: shortestLength((durationS) => lossAt(durationS)?.highKgPerYear, wantedKgPerYear),
  });
  const needed = (wantedKgPerYear: number): NeededLengths => ({
    ...(pressureAt && { pressureTest: lengthFor(pressureAt, wantedKgPerYear) }),
    ...(riseAt && {
      riseShown: lengthFor((durationS) => riseAt(durationS).shown, wantedKgPerYear),
      riseTold: lengthFor((durationS) => riseAt(durationS).told, wantedKgPerYear),
    }),
  });
  return {
    pressureRows: pressureAt === undefined ? [] : durationsS.map(pressureAt),
    riseRows: riseAt === undefined ? [] : durationsS.map(riseAt),
    ...(lossKgPerYear !== undefined && { needed: needed(lossKgPerYear) }),
  };
}

/** The circuit as the facts of a job would have it whose record gives this tested volume. */
function plannedCircuit(plan: TestPlan): StandingCircuit {
  const { volumeL, refrigerant, atmospherePa } = plan;
  const volume = plannedVolume(plan);
  if (volume === undefined)
    throw new DryholdError('out-of-range', { quantity: 'volume [L]', bound: 'above 0', received: volumeL });
  const vapour = standingVapour(refrigerant);
  if (vapour === undefined)
    throw new DryholdError('unknown-refrigerant', { refrigerant, known: refrigerantDesignations });
  return { volume, operation: { ...vapour, atmospherePa } };
}

function riseRow(test: PlannedRiseTest, circuit: StandingCircuit): (durationS: number) => PlannedRiseRow {
  const sightAt = riseTestSight(test);
  const climb = (paPerS: number | undefined): PlannedClimb | undefined =>
    paPerS === undefined ? undefined : { paPerS, ...bandOverVolume(lossesByRise(paPerS, circuit), circuit.volume) };
  return (durationS) => {
    const sight = sightAt(durationS);
    return { durationS, shown: climb(sight?.risePaPerS), told: climb(sight?.leakPaPerS) };
  };
}
