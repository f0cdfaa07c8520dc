import { siteAtmosphere } from '../../facts/site-atmosphere.ts';
import { durationText, gaugePressureText, pressureChangeText } from '../../units/display.ts';
import { lossUnseen } from './loss-unseen.ts';
import { partsUnseen } from './parts-unseen.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen-words.ts';

const inUse = 'a leak that opens only while the system runs, hot, cold or shaking';

/** What a standing pressure test could not have seen. */
export const pressureTestUnseen: UnseenByCheck = {
  'no-pressure-test': {
    passed: (material) => ['which gas it was', partsUnseen(material)],
    flagged: () => ['a test that was not logged, or that stands in the log of another job'],
  },
  'test-pressure-over-design': {
    passed: () => ['a higher peak between two readings', 'a part rated lower than the record says'],
    flagged: () => ['a higher peak still between two readings', 'what the pressure did to the weakest part'],
  },
  'test-pressure-not-reached': {
    passed: (material) => ['a gauge that reads wrong: none was read beside it', partsUnseen(material)],
    flagged: ({ facts, units }) => [
      facts.held_test_pa === undefined
        ? ''
        : `a leak that opens only above the ${gaugePressureText(facts.held_test_pa, facts.atmosphere_pa ?? siteAtmosphere(undefined), units)} held`,
    ],
  },
  'pressure-test-short': { passed: (material) => [dropUnseen(material)] },
  'pressure-not-held': {
    passed: (material) => [sizedDropUnseen(material), partsUnseen(material)],
    flagged: ({ facts, units }) => {
      const { pressure_drop_pa: dropPa, pressure_drop_high_pa: highPa } = facts;
      if (dropPa === undefined) return ['how cold the gas grew, as the temperature of the pipe was not logged'];
      if (highPa !== undefined && highPa < 0)
        return [`a drop of up to ${pressureChangeText(-dropPa, units)}, by which it ended too high`];
      return ['where a leak would be: on the system, or at the gauge, the valve and the hose of the test'];
    },
  },
  'pressure-test-blind': {
    passed: (material) => [inUse, partsUnseen(material)],
    flagged: (material) => [dropUnseen(material), partsUnseen(material)],
  },
};

/** The smallest drop, where it is known; otherwise what is too slow for the length of the hold. */
function dropUnseen({ facts, units }: UnseenMaterial): string {
  const { smallest_drop_seen_pa: leastPa, pressure_hold_start_s: startS, pressure_hold_end_s: endS } = facts;
  const within = (fromS: number | undefined) =>
    fromS === undefined || endS === undefined ? 'such a hold' : durationText(endS - fromS);
  if (leastPa === undefined) return `a leak too slow to show in ${within(startS)}`;
  return `a drop of less than ${pressureChangeText(leastPa, units)} in ${within(facts.pressure_settled_s ?? startS)}`;
}

function sizedDropUnseen(material: UnseenMaterial): string {
  const { smallest_test_loss_low_kg_per_year: lowKg, smallest_test_loss_high_kg_per_year: highKg } = material.facts;
  const loss = material.facts.smallest_drop_seen_pa === undefined ? '' : lossUnseen(material, lowKg, highKg);
  return loss === '' ? dropUnseen(material) : `${dropUnseen(material)} (a leak that ${loss})`;
}
