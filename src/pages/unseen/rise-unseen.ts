import { durationText, riseRateText, temperatureText, vacuumText } from '../../units/display.ts';
import { accuracyUnseen } from './accuracy-unseen.ts';
import { lossUnseen } from './loss-unseen.ts';
import { outdoorUnseen } from './parts-unseen.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen-words.ts';

const underPressure = 'a leak that opens only under pressure: a vacuum pulls with one atmosphere only';

/** What a rise test could not have seen. */
export const riseUnseen: UnseenByCheck = {
  'no-rise-test': {
    passed: (material) => ['which valve was shut: a hose that was left on is tested, too', outdoorUnseen(material)],
    flagged: ({ facts }) => [
      facts.isolation_start_s === undefined
        ? 'a test that was not logged, or that stands in the log of another job'
        : 'a leak or moisture: so brief a test shows neither',
    ],
  },
  'rise-test-short': { passed: (material) => [climbUnseen(material), 'moisture that comes out later'] },
  'rise-over-limit': {
    passed: (material) => ['a leak or moisture so slow that it stays within the limit', accuracyUnseen(material)],
    flagged: ({ facts, units }) => [
      facts.isolation_over === true || facts.rise_pa === undefined
        ? 'how high the pressure went above the gauge’s range, and why'
        : `what the rise of ${vacuumText(facts.rise_pa, units)} was made of: its size tells no leak from moisture or outgassing`,
    ],
  },
  leaking: {
    passed: (material) => [climbUnseen(material), underPressure, outdoorUnseen(material)],
    flagged: ({ facts, units }) => {
      const { rise_shape: shape, leak_low_pa_per_s: low = 0, leak_high_pa_per_s: high = 0 } = facts;
      const { smallest_leak_seen_pa_per_s: least } = facts;
      if (shape !== 'undecided' && low > 0)
        return ['where a leak would be: on the system, or at the gauge, the valve and the hose of the test'];
      // A figure beyond what a leak can be at most would only confuse.
      return [
        least === undefined || least > high
          ? 'which of leak, moisture and outgassing it was'
          : `a leak of less than ${riseRateText(least, units)} apart from moisture and outgassing`,
      ];
    },
  },
  wet: {
    passed: ({ facts, units }) => [
      facts.line_low_k === undefined
        ? ''
        : `ice at a spot colder than the ${temperatureText(facts.line_low_k, units)} that the clamp showed`,
      'water that oil holds back for longer than it was watched',
    ],
    flagged: () => ['where the water is', 'what of the rise was refrigerant coming out of the oil'],
  },
  'rise-test-blind': {
    passed: (material) => [leakUnseen(material), outdoorUnseen(material)],
    flagged: (material) => [leakUnseen(material), underPressure],
  },
};

function watchedText({ facts }: UnseenMaterial): string {
  const { isolation_start_s: startS, isolation_end_s: endS } = facts;
  return startS === undefined || endS === undefined ? 'such a test' : durationText(endS - startS);
}

/** The smallest steady climb, where it is known; otherwise what is too slow for the length of the test. */
function climbUnseen(material: UnseenMaterial): string {
  const { smallest_rise_seen_pa_per_s: least } = material.facts;
  return least === undefined
    ? `a leak or moisture too slow to show in ${watchedText(material)}`
    : `a steady climb of less than ${riseRateText(least, material.units)}, which this gauge does not show in ${watchedText(material)}`;
}

/** The smallest leak that would have been told from moisture, by what it would lose where that is known. */
function leakUnseen(material: UnseenMaterial): string {
  const { smallest_loss_low_kg_per_year: lowKg, smallest_loss_high_kg_per_year: highKg } = material.facts;
  const loss = lossUnseen(material, lowKg, highKg);
  return loss === ''
    ? 'a leak that opens only while the system runs, hot, cold or shaking'
    : `beside moisture or outgassing, a leak that ${loss}`;
}
