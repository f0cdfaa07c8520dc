import type { Facts } from '../../src/records/tables/facts.ts';
import type { RiseParts } from '../../src/simulate/rise-shape.ts';
import { type Claim, type ClaimCase, claim, type TrialName } from './claim.ts';
import type { ShapeTruth } from './shape-truth.ts';

/** A rise with its truth: of a drawn evacuation, or of a job of a fleet. */
export interface ShapeCase {
  readonly plan: TrialName & { readonly isolated: boolean };
  readonly facts: Partial<Facts>;
  readonly truth: { readonly rise?: RiseParts; readonly shape?: ShapeTruth };
}

type Verdict = 'right' | 'undecided' | 'wrong';

/** Whether the shape of the rise is named right, over the trials that were isolated. */
export function shapeClaims(results: readonly ShapeCase[]): Claim[] {
  const isolated = results.filter(({ plan }) => plan.isolated);
  const near = (one: ShapeCase) =>
    shapeVerdict(one) === 'wrong' && one.truth.shape?.nearShapes.some((shape) => shape === one.facts.rise_shape);
  return [
    ...rows('shape', isolated),
    ...rows(
      '… modelled alone',
      isolated.filter(({ plan }) => plan.unmodelled === undefined),
    ),
    ...rows(
      '… unmodelled alone',
      isolated.filter(({ plan }) => plan.unmodelled !== undefined),
    ),
    claim(
      'shape wrong, though not near a border (parts ± 25 %)',
      isolated.map((one) => verdictCase(one, shapeVerdict(one) === 'wrong' && !near(one))),
    ),
  ];
}

/** True shape × found shape, counts; its heads first. */
export function shapeConfusion(results: readonly ShapeCase[]): string[][] {
  const found = ['dry', 'leak', 'moisture', 'mixed', 'settling', 'undecided', 'absent', 'none'];
  const shapes = ['dry', 'leak', 'moisture', 'mixed', 'settling', 'absent'];
  const rowOf = (shape: string) => {
    const those = results.filter(({ truth }) => (truth.shape?.shape ?? 'absent') === shape);
    const counts = found.map((name) => those.filter(({ facts }) => (facts.rise_shape ?? 'none') === name).length);
    return [shape, ...counts.map((count) => (count === 0 ? '·' : String(count)))];
  };
  return [['true \\ found', ...found], ...shapes.map(rowOf)];
}

/** Right where it is the true shape or one as right; no shape at all counts as undecided. */
export function shapeVerdict({ facts, truth }: ShapeCase): Verdict {
  const found = facts.rise_shape ?? 'undecided';
  if (found === 'undecided') return 'undecided';
  return found === truth.shape?.shape || truth.shape?.alsoRight.some((shape) => shape === found) ? 'right' : 'wrong';
}

function rows(name: string, results: readonly ShapeCase[]): Claim[] {
  const share = (wanted: readonly Verdict[], listed: boolean) =>
    results.map((one) => {
      const value = wanted.includes(shapeVerdict(one));
      return verdictCase(one, value, listed && value ? 1 : 0);
    });
  return [
    claim(`${name} right or undecided`, share(['right', 'undecided'], false), { least: 0.96 }),
    claim(`${name} right`, share(['right'], false)),
    claim(`${name} undecided`, share(['undecided'], true)),
    claim(`${name} wrong`, share(['wrong'], true), { most: 0.02 }),
  ];
}

function verdictCase({ plan, facts, truth }: ShapeCase, value: boolean, badness = value ? 1 : 0): ClaimCase {
  const { rise, shape } = truth;
  const part = (pa: number | undefined) => (pa === undefined ? '–' : pa.toFixed(2));
  const says =
    `true ${shape?.shape}, found ${facts.rise_shape ?? 'none'} (${facts.rise_model ?? 'no model'}); ` +
    `leak ${part(rise?.leakPa)} vapour ${part(rise?.vapourPa)} settling ${part(rise?.settlingPa)} Pa from ${part(rise?.startPa)}, ` +
    `found ${part(facts.leak_rise_pa)} ${part(facts.vapour_rise_pa)} ${part(facts.settling_rise_pa)}`;
  return { plan, value, badness, says };
}
