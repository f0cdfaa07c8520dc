import { lengthText, massPerLengthText, massText } from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import type { StoryMaterial } from './story-material.ts';

/** Problems for which no figure of the charge is worth telling: a finding names them. */
const unbelievable = new Set<StoryMaterial['facts']['charge_problem']>([
  'scale-unit',
  'absurd-mass',
  'absurd-residual',
  'absurd-adder',
]);

/**
 * What was charged, as one would reckon it on paper: what left the cylinder, what stayed in the hoses, what was wanted and
 * of what that is made up; then what a charge that is off costs.
 *
 * @returns one paragraph, or two; none where nothing tells of a charge
 */
export function chargeStory(material: StoryMaterial): string[] {
  const { facts } = material;
  if (facts.drawn_kg === undefined) return [];
  if (unbelievable.has(facts.charge_problem)) return [];
  return [
    [weighed(material), wanted(material)].filter((sentence) => sentence !== '').join(' '),
    ...(material.chargeIsOff ? [cost(material)] : []),
  ].filter((paragraph) => paragraph !== '');
}

const tellers = {
  scale: 'By the log of the scale',
  weighings: 'By the weighings',
  record: 'By the record',
} as const;

/** What left the cylinder and what reached the system. */
function weighed({ facts, units }: StoryMaterial): string {
  const { drawn_kg: drawnKg = 0, charged_from: from = 'record', charged_kg: chargedKg } = facts;
  if (drawnKg === 0) return `${tellers[from]} nothing was charged.`;
  const { scale_drop_kg: seriesKg, entered_drop_kg: writtenKg } = facts;
  const otherKg = from === 'scale' ? writtenKg : seriesKg;
  const other = otherKg === undefined ? '' : massText(otherKg, units);
  const beside =
    other === '' || other === massText(drawnKg, units)
      ? ''
      : from === 'scale'
        ? ` (written down: ${other})`
        : ` (the log of the scale, which was moved, says ${other})`;
  const left = `${tellers[from]} ${massText(drawnKg, units)} left the cylinder${beside}`;
  if (chargedKg === undefined) return `${left}.`;
  const hoses = residual(facts, units);
  return hoses === ''
    ? `${left}; what stayed in the hoses${mayBe(facts, units)} is not on record, and counts as charged.`
    : `${left}, of which ${hoses}: ${massText(chargedKg, units)} went in.`;
}

function residual(
  {
    hose_residual_kg: kg,
    hose_residual_low_kg: lowKg,
    hose_residual_high_kg: highKg,
    hose_residual_basis: basis,
  }: StoryMaterial['facts'],
  units: StoryMaterial['units'],
): string {
  if (kg === undefined || basis === undefined || basis === 'assumed') return '';
  const mass = massText(kg, units);
  if (basis === 'recorded') return `${mass} stayed in the hoses`;
  const range =
    lowKg === undefined || highKg === undefined ? '' : `${rangeText(massText(lowKg, units), massText(highKg, units))}`;
  return `${mass} stayed in the hoses, by their size (${range})`;
}

/** How much hoses of which nothing is on record may have kept. */
function mayBe({ hose_residual_high_kg: highKg }: StoryMaterial['facts'], units: StoryMaterial['units']): string {
  return highKg === undefined ? '' : `, ${massText(highKg, units)} if it was a short set full of liquid,`;
}

/** What should have gone in, with its sum. */
function wanted({ facts, job, units }: StoryMaterial): string {
  const { charge_wanted_kg: wantedKg, charge_target_kg: targetKg, line_charge_kg: lineKg = 0 } = facts;
  const factoryKg = job?.factory_charge_kg;
  if (targetKg === undefined || factoryKg === undefined) return '';
  const otherKg = job?.other_adder_kg ?? 0;
  const parts = [
    `the factory charge of ${massText(factoryKg, units)}${covered(facts, units)}`,
    lineKg === 0 ? '' : `${massText(lineKg, units)} ${beyond(facts, units)}`,
    otherKg === 0 ? '' : `other adders of ${massText(otherKg, units)}`,
  ].filter((part) => part !== '');
  const sum = `The whole system wants ${massText(targetKg, units)}: ${parts.join(', and ')}.`;
  if (wantedKg === undefined) return sum;
  if (job?.charge_basis === 'empty') return `${sum} It was empty before.`;
  if (wantedKg < 0)
    return `${sum} The factory charge was in it, which is ${massText(-wantedKg, units)} more than it wants.`;
  return wantedKg === 0
    ? `${sum} The factory charge was in it, so that nothing was to be added.`
    : `${sum} The factory charge was in it, so that ${massText(wantedKg, units)} was to be added.`;
}

function covered({ line_covered_m: coveredM }: StoryMaterial['facts'], units: StoryMaterial['units']): string {
  return coveredM === undefined ? '' : `, which covers ${lengthText(coveredM, units)} of line`;
}

function beyond(
  { line_beyond_m: beyondM = 0, line_adder_kg_per_m: adder, line_adder_basis: basis }: StoryMaterial['facts'],
  units: StoryMaterial['units'],
): string {
  const rate = adder === undefined ? '' : ` at ${massPerLengthText(adder, units)}`;
  const whose = basis === 'computed' ? ', reckoned from bore and density' : '';
  return `for ${lengthText(beyondM, units)} beyond that${rate}${whose}`;
}

/** What a charge that is off costs, as far as the published model reaches; of too much, the efficiency alone. */
function cost({ facts }: StoryMaterial): string {
  const { charge_capacity_ratio: capacity, charge_cop_ratio: cop, charge_deviation_kg: deviationKg = 0 } = facts;
  if (capacity === undefined || cop === undefined) return '';
  const ratios = deviationKg < 0 ? { cooling: capacity, efficiency: cop } : { efficiency: cop };
  const kept = Object.entries(ratios).flatMap(([what, ratio]) => {
    const percent = Math.round(100 * ratio);
    return percent < 100 ? [`${percent} % of its ${what}`] : [];
  });
  const lost = kept.length === 0 ? 'loses nothing to speak of' : `keeps ${kept.join(' and ')}`;
  return `By a published model (NIST TN 1848, one split system with a valve, cooling at 95 °F outdoors) a system so charged ${lost}; take that as an order of magnitude.`;
}
