import { vacuumText, volumeText } from '../../units/display.ts';
import { rangeText } from '../../units/range-text.ts';
import { accuracyUnseen } from './accuracy-unseen.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen-words.ts';

/** What an evacuation could not have shown. */
export const evacuationUnseen: UnseenByCheck = {
  'target-not-reached': {
    passed: (material) => [
      'a vacuum that was less deep away from the gauge, behind a core or a narrow hose',
      accuracyUnseen(material),
    ],
    flagged: (material) =>
      material.facts.deepest_pa === undefined
        ? ['how far above its range the pressure stood']
        : ['whether water, a leak, the pump or the hose kept it up', accuracyUnseen(material)],
  },
  'hold-short': {
    passed: () => ['what walls and oil went on giving off: the rise after valve-off tells that'],
    flagged: () => ['whether it was dry all the same', 'pumping that was not logged'],
  },
  'slow-pull-down': {
    passed: (material) => [deepPumping(material), volumeUnseen(material)],
    flagged: (material) => ['which of water, pump, hose, cores and valves it was', volumeUnseen(material)],
  },
  'water-in-system': {
    passed: ({ facts }) => [
      'ice, and water under oil or in a dead end, which boil off more slowly than a pump pulls',
      facts.line_low_k === undefined ? 'water in a pipe that is colder or warmer than usual' : '',
    ],
    flagged: () => ['how much water there was, and where'],
  },
  'gauge-at-pump': {
    passed: () => [
      'how deep the far end of the system was',
      'a gauge at the pump behind a hose so short and wide that nothing jumps',
    ],
    flagged: () => ['how deep the system itself was before valve-off'],
  },
};

function deepPumping({ facts, units }: UnseenMaterial): string {
  const { pumped_to_pa: toPa } = facts;
  return toPa === undefined ? '' : `a pump that is weak below ${vacuumText(toPa, units)}, where no speed was compared`;
}

/** The speed goes by the volume, and so does what is known of it. */
function volumeUnseen({ facts, units }: UnseenMaterial): string {
  const { tested_volume_low_l: lowL, tested_volume_high_l: highL } = facts;
  if (lowL === undefined || highL === undefined) return '';
  return `a difference that the volume explains, which may be ${rangeText(volumeText(lowL, units), volumeText(highL, units))}`;
}
