import { lengthText, massText } from '../../units/display.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen-words.ts';

const scaleOff = 'a scale that weighs wrong all along';

/** What weighing in a charge could not have shown. */
export const chargeUnseen: UnseenByCheck = {
  'no-weigh-in': {
    passed: ({ facts }) => [
      facts.charged_from === 'record' ? 'whether it was weighed: it is a figure that somebody wrote' : scaleOff,
      'what was in the system before',
    ],
  },
  'charge-off-target': {
    passed: (material) => [chargeSpread(material), hosesUnseen(material), lengthUnseen(material)],
  },
  'adder-disagrees': {
    passed: () => ['an adder that is wrong by no more than makers’ margins', 'a line of another size than recorded'],
    flagged: () => ['which of the two is wrong: the adder, or the recorded size of the line'],
  },
  'scale-unsteady': {
    passed: (material) => [flowSpread(material), scaleOff, 'refrigerant that left the hose elsewhere'],
    flagged: (material) =>
      material.facts.scale_drop_kg === undefined
        ? ['a charge from another cylinder, or off another scale']
        : [flowSpread(material), scaleOff],
  },
  'wrong-refrigerant': {
    passed: () => ['a mixture, or a little air, that moves pressures by less than gauge and clamp can tell'],
    flagged: ({ facts }) => [
      facts.weighed_refrigerant === undefined
        ? 'how much of it is another refrigerant, and how much is air'
        : 'what is in the system: this goes by what was written of the cylinders',
    ],
  },
};

/** How far the figure that was held against the target may be off: scale, hoses and lengths together. */
function chargeSpread({ facts, units }: UnseenMaterial): string {
  const { charge_deviation_low_kg: lowKg, charge_deviation_high_kg: highKg } = facts;
  if (lowKg === undefined || highKg === undefined) return '';
  return `the charge to better than ± ${massText((highKg - lowKg) / 2, units)}, by scale, hoses and lengths`;
}

function hosesUnseen({ facts, units }: UnseenMaterial): string {
  const { hose_residual_basis: basis, hose_residual_high_kg: highKg } = facts;
  if (basis !== 'assumed' || highKg === undefined) return '';
  return `what stayed in the hoses, up to ${massText(highKg, units)} of a short set`;
}

/** A length on record is taken at its word. */
function lengthUnseen({ facts, units }: UnseenMaterial): string {
  const { line_adder_kg_per_m: adder } = facts;
  const stretchM = 3.048;
  const counts =
    adder === undefined || adder === 0
      ? ''
      : ` (${lengthText(stretchM, units)} of line count for ${massText(stretchM * adder, units)})`;
  return `a length or a factory charge that is wrong on record${counts}`;
}

function flowSpread({ facts, units }: UnseenMaterial): string {
  const { scale_drop_low_kg: lowKg, scale_drop_high_kg: highKg } = facts;
  if (lowKg === undefined || highKg === undefined) return '';
  return `the mass to better than ± ${massText((highKg - lowKg) / 2, units)}`;
}
