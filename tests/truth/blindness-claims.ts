import { type Claim, type ClaimCase, claim } from './claim.ts';
import { type TrialResult, trialResult } from './trial-result.ts';

/**
 * Whether a leak of the size that a test says it would just have seen is seen: every tight dry trial once more, with that leak and
 * fresh noise.
 */
export function blindnessClaims(results: readonly TrialResult[]): Claim[] {
  const tight = results.filter(({ plan }) => plan.kind === 'dry' && plan.isolated && plan.circuit.leakPaPerS === 0);
  const stated = tight.filter(({ facts }) => facts.smallest_leak_seen_pa_per_s !== undefined);
  return [
    claim('smallest visible leak, seen when it is there', stated.map(againCase), { least: 0.75, most: 0.85 }),
    claim('… seen where there is none', stated.map(falseCase), { most: 0.025 }),
    claim('… its size, median', stated.map(sizeCase), { write: (value) => `${value.toPrecision(3)} Pa/s` }),
    claim(
      'tight and dry without one',
      tight.map((one) => ({ ...falseCase(one), value: !stated.includes(one), badness: 0 })),
    ),
  ];
}

const seen = ({ facts }: TrialResult) => (facts.leak_low_pa_per_s ?? 0) > 0;

function againCase(result: TrialResult): ClaimCase {
  const { plan, facts } = result;
  const size = facts.smallest_leak_seen_pa_per_s as number;
  const again = trialResult(plan, 2, size);
  const { leak_pa_per_s: leak, leak_low_pa_per_s: low, leak_high_pa_per_s: high } = again.facts;
  const says = `added ${size.toPrecision(3)} Pa/s, found ${leak?.toPrecision(3)} (${low?.toPrecision(3)} to ${high?.toPrecision(3)}), ${again.facts.rise_model ?? 'no model'}`;
  return { plan, value: seen(again), badness: seen(again) ? 0 : size, says };
}

function falseCase(result: TrialResult): ClaimCase {
  const { plan, facts } = result;
  const low = facts.leak_low_pa_per_s ?? 0;
  return {
    plan,
    value: low > 0,
    badness: low,
    says: `no leak, found at least ${low.toPrecision(3)} Pa/s (${facts.rise_model ?? 'no model'})`,
  };
}

function sizeCase({ plan, facts }: TrialResult): ClaimCase {
  return { plan, value: facts.smallest_leak_seen_pa_per_s as number, badness: 0, says: '' };
}
