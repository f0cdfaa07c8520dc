import type { Facts } from '../../src/records/tables/facts.ts';
import type { Truth } from '../../src/simulate/truth.ts';
import { type Claim, type ClaimCase, claim, type TrialName } from './claim.ts';

/** A rise with its truth: of a drawn evacuation, or of a job of a fleet. */
export interface LeakCase {
  readonly plan: TrialName & { readonly isolated: boolean; readonly gauge: { readonly gainRatio: number } };
  readonly facts: Partial<Facts>;
  readonly truth: Pick<Truth, 'leak_pa_per_s'> & { readonly shape?: { readonly shape: string } };
}

const COVER = { least: 0.93, most: 0.97 };

/** How near the leak rate comes to the true one, and how often its interval holds it. */
export function leakClaims(results: readonly LeakCase[]): Claim[] {
  const isolated = results.filter(({ plan, facts }) => plan.isolated && facts.leak_pa_per_s !== undefined);
  const judged = isolated.filter(({ facts }) => facts.leak_low_pa_per_s !== undefined);
  const leaking = judged.filter(({ plan }) => plan.kind === 'leaking' || plan.kind === 'mixed');
  const noneStated = results
    .filter(({ plan }) => plan.isolated)
    .map((one) => ({ ...rateCase(one), value: !judged.includes(one), badness: 0 }));
  const tellable = isolated.filter(({ truth, facts }) => {
    const smallest = facts.smallest_leak_seen_pa_per_s;
    return smallest !== undefined && (truth.leak_pa_per_s ?? 0) >= smallest;
  });
  const of = (shape: string) => isolated.filter(({ truth }) => truth.shape?.shape === shape);
  const missed = (name: string, some: readonly LeakCase[]) => [
    claim(`leak interval holds the truth, ${name}`, some.map(coverCase), COVER),
    claim(
      '… the truth lies above it',
      some.map((one) => sideCase(one, 'above')),
    ),
    claim(
      '… the truth lies below it',
      some.map((one) => sideCase(one, 'below')),
    ),
  ];
  return [
    ...(['leak', 'mixed'] as const).flatMap((shape) => [
      claim(
        `leak rate, true shape ${shape}: median error against truth × gain`,
        of(shape).map((one) => errorCase(one, true)),
        { most: 0.03 },
      ),
      claim(
        '… against the plain truth',
        of(shape).map((one) => ({ ...errorCase(one, false), badness: 0 })),
      ),
    ]),
    claim(
      'leak rate, every job whose leak its test could tell (true rate at least the smallest visible one)',
      tellable.map((one) => errorCase(one, true)),
      { most: 0.03 },
    ),
    ...missed('leaking jobs', leaking),
    ...missed('all isolated', judged),
    ...missed(
      'modelled alone',
      judged.filter(({ plan }) => plan.unmodelled === undefined),
    ),
    claim('isolated without a leak interval', noneStated),
  ];
}

const rate = (value: number | undefined) => (value === undefined ? '–' : value.toPrecision(3));

function rateCase({ plan, facts, truth }: LeakCase): Pick<ClaimCase, 'plan' | 'says'> {
  const says =
    `true ${rate(truth.leak_pa_per_s)} Pa/s, gain ${plan.gauge.gainRatio.toFixed(3)}, found ${rate(facts.leak_pa_per_s)} ` +
    `(${rate(facts.leak_low_pa_per_s)} to ${rate(facts.leak_high_pa_per_s)}), ${truth.shape?.shape} as ${facts.rise_shape ?? 'none'} (${facts.rise_model ?? 'no model'})`;
  return { plan, says };
}

function errorCase(result: LeakCase, withGain: boolean): ClaimCase {
  const trueRate = (result.truth.leak_pa_per_s as number) * (withGain ? result.plan.gauge.gainRatio : 1);
  const value = Math.abs((result.facts.leak_pa_per_s as number) / trueRate - 1);
  return { ...rateCase(result), value, badness: value };
}

/** How far outside its interval the truth lies, in halves of its width: below 0 inside. */
function outside({ facts, truth }: LeakCase): { side: 'above' | 'below' | 'in'; by: number } {
  const low = facts.leak_low_pa_per_s as number;
  const high = facts.leak_high_pa_per_s as number;
  const leak = truth.leak_pa_per_s as number;
  const half = Math.max((high - low) / 2, 1e-9);
  if (leak > high) return { side: 'above', by: (leak - high) / half };
  if (leak < low) return { side: 'below', by: (low - leak) / half };
  return { side: 'in', by: 0 };
}

function coverCase(result: LeakCase): ClaimCase {
  const { side, by } = outside(result);
  return { ...rateCase(result), value: side === 'in', badness: by };
}

function sideCase(result: LeakCase, wanted: 'above' | 'below'): ClaimCase {
  return { ...rateCase(result), value: outside(result).side === wanted, badness: 0 };
}
