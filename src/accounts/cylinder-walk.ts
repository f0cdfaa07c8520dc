import { hosePullKg } from '../facts/charge/weigh-in.ts';
import type { CylinderRecord, CylinderWeighing } from './cylinder-record.ts';
import { type MendedWeight, mendedWeights } from './mended-weights.ts';
import { placingKg } from './placing.ts';
import { emptyWeightKg, type ExpectedWeight, type Shown, shownWeight } from './shown-weight.ts';

// What follows is common practice, no source; standard uncertainties.
/** What a scale shows is good to this ratio. */
const scaleRatio = 0.002;
/** What a new cylinder is said to hold is good to this ratio. */
const fillRatio = 0.003;
/** The weight that is stamped on an empty cylinder [kg]. */
const stampKg = 0.02;
/** So many standard deviations are beyond what the scale explains: one in a thousand by chance. */
export const beyondScale = 3.29;
/** A hose that pulls on one day and not on the next, or a cap that is put on, moves a weight by so much at most [kg]. */
const pulledKg = 1.5 * hosePullKg;

/** A weighing as it counts in its cylinder. */
export interface WalkedWeighing {
  readonly weighing: CylinderWeighing;
  /** What left the cylinder; below 0 what came into it [kg]. */
  readonly outKg: number;
  /** Standard uncertainty of it [kg]. */
  readonly sdKg: number;
  /** Where one of the two weights is wrong by another figure of the same mass. */
  readonly mended: MendedWeight | null;
}

/** What a cylinder weighs less, or more, than it did at the weighing before. */
export interface CylinderGap {
  readonly cylinderId: string;
  /** Missing; below 0 what is too much [kg]. */
  readonly kg: number;
  /** Standard uncertainty [kg]. */
  readonly sdKg: number;
  /** Days between which it came about: of the weighing before, or the day it was bought; and of this one, or its closing. */
  readonly fromDay: number | null;
  readonly day: number;
  /** The weighings before and after; null before the first, and for the closing. */
  readonly before: CylinderWeighing | null;
  readonly after: CylinderWeighing | null;
  /** What the scale should have shown, and showed; of a closing what should have been in it, and was [kg]. */
  readonly expectedKg: number;
  readonly shownKg: number;
  /** Whether the scale does not explain it. */
  readonly isBeyond: boolean;
}

/** What came of following a cylinder from weighing to weighing. */
export interface CylinderWalk {
  readonly cylinder: CylinderRecord;
  readonly weighings: readonly WalkedWeighing[];
  /** Every one, in the order of time; small ones too. */
  readonly gaps: readonly CylinderGap[];
  /** What is in it after each weighing, by its weights [kg]. */
  readonly contentKg: readonly number[];
  /** What was in it last, before it was closed [kg]. */
  readonly lastKg: number;
}

/** What the scale should show, and how well that is known. */
interface Expected extends ExpectedWeight {
  readonly day: number | null;
  readonly before: CylinderWeighing | null;
}

/**
 * Follows a cylinder: what left it by each weighing, and where what it weighs does not go on from the weighing before.
 *
 * What is in it less what left it less what is missing is what is left, whatever the weights: nothing is counted twice, nothing lost.
 *
 * @param weighings of this cylinder, with both weights, in the order of time
 */
export function walkCylinder(cylinder: CylinderRecord, weighings: readonly CylinderWeighing[]): CylinderWalk {
  const { closedDay, closingKg, netKg } = cylinder;
  const boughtKg = netKg ?? 0;
  const tareKg = cylinder.tareKg ?? emptyWeightKg(boughtKg, weighings);
  const closedWholeKg = closingKg === null || tareKg === null ? undefined : closingKg + tareKg;
  let expected: Expected | null =
    tareKg === null
      ? null
      : {
          kg: tareKg + boughtKg,
          variance: (fillRatio * boughtKg) ** 2 + stampKg ** 2,
          day: cylinder.acquiredDay,
          before: null,
        };
  let shownBefore: Shown = 'whole';
  let contentKg = boughtKg;
  const walked: WalkedWeighing[] = [];
  const gaps: CylinderGap[] = [];
  const contents: number[] = [];
  for (const [at, weighing] of weighings.entries()) {
    const shown = shownWeight(weighing, expected, tareKg, shownBefore);
    if (shown !== 'zeroed') shownBefore = shown;
    const nextKg = at + 1 < weighings.length ? weighings[at + 1].startKg : closedWholeKg;
    const { startKg, endKg, mended } = mendedWeights(weighing, { shown, expected, nextKg, tareKg });
    const outKg = startKg - endKg;
    const { stepKg, day } = weighing;
    const stepVariance = stepKg ** 2 / 12;
    const sdKg = Math.hypot(stepKg / Math.sqrt(6), scaleRatio * outKg);
    if (shown === 'zeroed') {
      if (expected !== null)
        expected = { ...expected, kg: expected.kg - outKg, variance: expected.variance + sdKg ** 2 };
    } else {
      // A scale that shows the content alone had the empty weight taken off.
      const offKg = shown === 'content' ? (tareKg ?? 0) : 0;
      if (expected !== null) {
        const isOtherScale = expected.before === null || expected.before.crewId !== weighing.crewId;
        const variance =
          expected.variance + stepVariance + placingKg ** 2 + (isOtherScale ? 2 * (scaleRatio * startKg) ** 2 : 0);
        const gap = gapOf({ cylinder, expected, shownKg: startKg + offKg, variance, day, after: weighing });
        gaps.push(gap);
        contentKg -= gap.kg;
      }
      expected = { kg: endKg + offKg, variance: stepVariance, day, before: weighing };
    }
    contentKg -= outKg;
    walked.push({ weighing, outKg, sdKg, mended });
    contents.push(contentKg);
  }
  const lastKg = contentKg;
  if (closedDay !== null && closingKg !== null) {
    const stepKg = weighings.at(-1)?.stepKg ?? 0.01;
    const variance =
      (expected?.variance ?? 0) +
      // Without a tare of its own nothing but the maker's word tells what was in it.
      (cylinder.tareKg === null ? (fillRatio * boughtKg) ** 2 : 0) +
      stepKg ** 2 / 6 +
      placingKg ** 2 +
      stampKg ** 2 +
      2 * (scaleRatio * (expected?.kg ?? lastKg)) ** 2;
    const from: Expected = {
      kg: lastKg,
      variance,
      day: expected?.day ?? cylinder.acquiredDay,
      before: expected?.before ?? null,
    };
    gaps.push(gapOf({ cylinder, expected: from, shownKg: closingKg, variance, day: closedDay, after: null }));
  }
  return { cylinder, weighings: walked, gaps, contentKg: contents, lastKg };
}

function gapOf(gap: {
  readonly cylinder: CylinderRecord;
  readonly expected: Expected;
  readonly shownKg: number;
  readonly variance: number;
  readonly day: number;
  readonly after: CylinderWeighing | null;
}): CylinderGap {
  const { cylinder, expected, shownKg, variance, day, after } = gap;
  const kg = expected.kg - shownKg;
  const sdKg = Math.sqrt(variance);
  return {
    cylinderId: cylinder.cylinderId,
    kg,
    sdKg,
    fromDay: expected.day,
    day,
    before: expected.before,
    after,
    expectedKg: expected.kg,
    shownKg,
    isBeyond: Math.abs(kg) > Math.hypot(pulledKg, beyondScale * sdKg),
  };
}
