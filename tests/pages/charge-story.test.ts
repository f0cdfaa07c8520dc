import { describe, expect, test } from 'vitest';
import { chargeStory } from '../../src/pages/charge-story.ts';
import type { StoryMaterial } from '../../src/pages/story-material.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

const POUND = 0.45359237;

/** 3 lb cover 25 ft; 20 ft beyond at 0.27 oz/ft want 5.4 oz; 7.5 oz left the cylinder, of which 2.1 oz stayed in the hoses. */
const facts: Partial<Facts> = {
  charged_from: 'scale',
  drawn_kg: 0.2126,
  charged_kg: 0.1531,
  scale_drop_kg: 0.2126,
  hose_residual_kg: 0.0595,
  hose_residual_low_kg: 0.0505,
  hose_residual_high_kg: 0.0685,
  hose_residual_basis: 'recorded',
  charge_target_kg: 3 * POUND + 0.1531,
  charge_wanted_kg: 0.1531,
  charge_deviation_kg: 0,
  charge_deviation_low_kg: -0.0099,
  charge_deviation_high_kg: 0.0099,
  line_covered_m: 7.62,
  line_beyond_m: 6.096,
  line_charge_kg: 0.1531,
  line_adder_kg_per_m: 0.025115,
  line_adder_basis: 'maker',
  charge_capacity_ratio: 0.9557,
  charge_cop_ratio: 0.9652,
};

function told(more: Partial<Facts> = {}, other: Partial<StoryMaterial> = {}): string[] {
  return chargeStory({
    facts: { ...facts, ...more },
    job: { factory_charge_kg: 3 * POUND, charge_basis: 'pre-charged' },
    limits: { pullTargetPa: 66.7 },
    blindIsSaid: false,
    pressureBlindIsSaid: false,
    chargeIsOff: false,
    units: 'ip',
    ...other,
  });
}

describe('the sum as one would do it on paper', () => {
  test('a pre-charged unit', () => {
    expect(told()).toEqual([
      'By the log of the scale 7.5 oz left the cylinder, of which 2.1 oz stayed in the hoses: 5.4 oz went in. The whole system wants 3 lb 5.4 oz: the factory charge of 3 lb 0.0 oz, which covers 25.0 ft of line, and 5.4 oz for 20.0 ft beyond that at 0.27 oz/ft. The factory charge was in it, so that 5.4 oz was to be added.',
    ]);
  });

  test('the same in grams and metres', () => {
    expect(told({}, { units: 'si' })[0]).toContain('153 g for 6.1 m beyond that at 25.1 g/m');
  });

  test('an evacuated system', () => {
    const job = { factory_charge_kg: 3 * POUND, charge_basis: 'empty' } as const;
    expect(told({ charge_wanted_kg: 3 * POUND + 0.1531 }, { job })[0]).toMatch(/It was empty before\.$/);
  });

  test('a line so short that the factory charge is too much', () => {
    expect(told({ charge_wanted_kg: -0.1531 })[0]).toMatch(
      /The factory charge was in it, which is 5\.4 oz more than it wants\.$/,
    );
  });

  test('a line no longer than covered', () => {
    const short = { line_beyond_m: 0, line_charge_kg: 0, line_adder_kg_per_m: undefined, charge_wanted_kg: 0 };
    expect(told({ ...short, charge_target_kg: 3 * POUND })[0]).toMatch(
      /which covers 25\.0 ft of line\. The factory charge was in it, so that nothing was to be added\.$/,
    );
  });

  test('an adder that was reckoned', () => {
    expect(told({ line_adder_basis: 'computed' })[0]).toContain('at 0.27 oz/ft, reckoned from bore and density.');
  });
});

describe('where the figures come from', () => {
  test.each([
    [{ charged_from: 'weighings', scale_drop_kg: undefined }, 'By the weighings 7.5 oz left the cylinder, of which'],
    [{ charged_from: 'record', scale_drop_kg: undefined }, 'By the record 7.5 oz left the cylinder, of which'],
    [{ entered_drop_kg: 0.25 }, 'By the log of the scale 7.5 oz left the cylinder (written down: 8.8 oz), of which'],
    [
      { charged_from: 'record', scale_drop_kg: 0.25, entered_drop_kg: 0.2126 },
      'By the record 7.5 oz left the cylinder (the log of the scale, which was moved, says 8.8 oz), of which',
    ],
    [{ hose_residual_basis: 'computed' }, 'of which 2.1 oz stayed in the hoses, by their size (1.8 to 2.4 oz):'],
    [
      { hose_residual_basis: 'assumed', hose_residual_kg: 0 },
      'what stayed in the hoses, 2.4 oz if it was a short set full of liquid, is not on record, and counts as charged.',
    ],
    [
      { hose_residual_basis: undefined, hose_residual_high_kg: undefined },
      'what stayed in the hoses is not on record, and counts as charged.',
    ],
    [{ drawn_kg: 0 }, 'By the log of the scale nothing was charged.'],
  ] as const)('%o', (more, says) => {
    expect(told(more)[0]).toContain(says);
  });
});

describe('what it costs', () => {
  test('told where the charge is off, as an order of magnitude', () => {
    expect(told({ charge_deviation_kg: -0.15 }, { chargeIsOff: true })[1]).toBe(
      'By a published model (NIST TN 1848, one split system with a valve, cooling at 95 °F outdoors) a system so charged keeps 96 % of its cooling and 97 % of its efficiency; take that as an order of magnitude.',
    );
    expect(told()).toHaveLength(1);
  });

  test('of too much the efficiency alone', () => {
    expect(told({ charge_deviation_kg: 0.15 }, { chargeIsOff: true })[1]).toContain(
      'a system so charged keeps 97 % of its efficiency;',
    );
    expect(told({ charge_deviation_kg: 0.04, charge_cop_ratio: 0.998 }, { chargeIsOff: true })[1]).toContain(
      'a system so charged loses nothing to speak of;',
    );
  });

  test('nothing where the model does not reach', () => {
    const none = { charge_capacity_ratio: undefined, charge_cop_ratio: undefined };
    expect(told({ charge_deviation_kg: 1, ...none }, { chargeIsOff: true })).toHaveLength(1);
  });
});

test.each([
  [{ drawn_kg: undefined }],
  [{ charge_problem: 'scale-unit' }],
  [{ charge_problem: 'absurd-mass' }],
  [{ charge_problem: 'absurd-residual' }],
  [{ charge_problem: 'absurd-adder' }],
] as const)('nothing is told of %o', (more) => {
  expect(told(more)).toEqual([]);
});
