import { describe, expect, test } from 'vitest';
import { pressureTestStory } from '../../src/pages/pressure-test-story.ts';
import type { LimitOrigin, StoryMaterial } from '../../src/pages/story-material.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

// One psi is 6894.757 Pa; psig count from the atmosphere at sea level.
const psi = 6894.757;
const atmosphere_pa = 101_325;
const psig = (value: number) => atmosphere_pa + value * psi;

/** Half an hour at 450 psig, read without a clamp: 2 psi down. */
const shutIn: Partial<Facts> = {
  pressure_readings: 900,
  atmosphere_pa,
  highest_test_pa: psig(452),
  pressure_stages: 1,
  pressure_hold_start_s: 90,
  pressure_settled_s: 390,
  pressure_hold_end_s: 1890,
  held_test_pa: psig(450),
  end_test_pa: psig(448),
  read_drop_pa: 2 * psi,
  explaining_cooling_k: 1.2,
};
/** The same with a clamp: the pipe cooled by 2 °F, which explains 1.9 psi. */
const clamped: Partial<Facts> = {
  ...shutIn,
  explaining_cooling_k: undefined,
  held_line_k: 294.26,
  end_line_k: 293.15,
  coldest_line_k: 293.15,
  warmest_line_k: 294.26,
  expected_end_test_pa: psig(448.1),
  pressure_drop_pa: 0.1 * psi,
  pressure_drop_low_pa: -0.5 * psi,
  pressure_drop_high_pa: 0.7 * psi,
  pressure_drop_sure_pa: -0.9 * psi,
  smallest_drop_seen_pa: 1.2 * psi,
};
/** A leak of 3 psi, on a volume that is known; losses are not those of a computation. */
const leaking: Partial<Facts> = {
  ...clamped,
  end_test_pa: psig(445.1),
  read_drop_pa: 4.9 * psi,
  pressure_drop_pa: 3 * psi,
  pressure_drop_low_pa: 2.4 * psi,
  pressure_drop_high_pa: 3.6 * psi,
  pressure_drop_sure_pa: 2.1 * psi,
  tested_volume_l: 4,
  test_loss_low_kg_per_year: 0.9,
  test_loss_high_kg_per_year: 2.4,
  smallest_test_loss_low_kg_per_year: 0.2,
  smallest_test_loss_high_kg_per_year: 0.6,
};
const limits = { pullTargetPa: 66.66, testTargetPa: psig(450), standAskedS: 1800 } as const;

/** The story of some facts, in psi. */
function told(facts: Partial<Facts>, other: Partial<StoryMaterial> = {}): string[] {
  return pressureTestStory({
    facts,
    job: undefined,
    limits,
    blindIsSaid: false,
    pressureBlindIsSaid: false,
    chargeIsOff: false,
    units: 'ip',
    ...other,
  });
}

describe('the story of a pressure test', () => {
  test('tells how high and how long, what pressure and pipe did, the drop, then what could not have shown', () => {
    expect(told(leaking)).toEqual([
      'The pressure test went up to 452.0 psig (450.0 psig asked for), and the system stood shut in for 30 min (30 min asked for). ' +
        'Of that the first 5 min, in which the gas settles, are left out. ' +
        'In the 25 min after that the pressure went from 450.0 psig to 445.1 psig, and the pipe from 70.0 °F to 68.0 °F, by which alone a tight system would have gone to 448.1 psig. ' +
        'All readings taken together, the drop that temperature does not explain is 3.00 psi (2.40 to 3.60 psi, 95 %). ' +
        'The drop is, on the 0.141 ft³ tested, a leak that would lose 2.0 to 5.3 lb a year, standing at 70 °F (21 °C), as an order of magnitude.',
      'A drop of 1.20 psi would have been told for one four times of five, a smaller one less often. ' +
        'Such a drop is, on the 0.141 ft³ tested, a leak that would lose 7.1 oz to 1.3 lb a year, standing at 70 °F (21 °C), as an order of magnitude.',
    ]);
  });

  test('in the units asked for, a test pressure as a gauge shows it', () => {
    const si = told(leaking, { units: 'si' }).join(' ');
    // 452 psig are 31.16 barg, 450 psig 31.03; 3 psi are 0.207 bar.
    expect(si).toContain('went up to 31.16 bar gauge (31.03 bar gauge asked for)');
    expect(si).not.toContain('absolute');
    expect(si).toContain('from 21.1 °C to 20.0 °C');
    expect(si).toContain('is 0.207 bar (0.165 to 0.248 bar, 95 %)');
    expect(si).toContain('on the 4.00 L tested, a leak that would lose 900 g to 2.4 kg a year');
    // The temperature that the loss is said for stands in both units everywhere.
    expect(si.replaceAll('70 °F (21 °C)', '')).not.toMatch(/psi|\boz\b|\blb\b|ft³|°F/);
  });

  test('a drop that may be none is no leak, and one below zero beyond doubt is said as such', () => {
    const none = told(clamped);
    expect(none[0]).toContain('is 0.10 psi (−0.50 to 0.70 psi, 95 %), so there may be none.');
    expect(none.join(' ')).not.toContain('a leak that would lose');
    const risen = told({
      ...clamped,
      end_test_pa: psig(449.1),
      pressure_drop_pa: -psi,
      pressure_drop_low_pa: -1.6 * psi,
      pressure_drop_high_pa: -0.4 * psi,
    });
    expect(risen[0]).not.toContain('drop');
    expect(risen[0]).toContain(
      'it ended higher than temperature explains, by 1.00 psi (0.40 to 1.60 psi, 95 %), as where gas grew warmer and the clamp did not.',
    );
  });

  test('a drop that is likelier a rise reads as none, not as a drop of minus so much', () => {
    const [story = ''] = told({
      ...clamped,
      pressure_drop_pa: -8 * psi,
      pressure_drop_low_pa: -20 * psi,
      pressure_drop_high_pa: 4 * psi,
    });
    expect(story).toContain(
      'All readings taken together, there is no drop that temperature does not explain; if anything the pressure rose, by 8 psi (95 %: between a rise of 20 psi and a drop of 4 psi).',
    );
    expect(story).not.toContain('−8');
  });

  test('only what the record asks for was asked for; a usual limit and a policy’s are called so', () => {
    const from = (testTargetFrom: LimitOrigin, standFrom: LimitOrigin) =>
      told(clamped, { limits: { ...limits, testTargetFrom, standFrom } })[0];
    expect(from('record', 'practice')).toContain(
      '(450.0 psig asked for), and the system stood shut in for 30 min (30 min is usual).',
    );
    expect(from('practice', 'policy')).toContain(
      '(450.0 psig is usual), and the system stood shut in for 30 min (30 min by the policy).',
    );
  });

  test('a volume that was estimated is said to be', () => {
    expect(told({ ...leaking, tested_volume_basis: 'estimated' })[0]).toContain(
      'on the 0.141 ft³ tested (estimated), a leak that',
    );
    expect(told({ ...leaking, tested_volume_basis: 'tested' })[0]).toContain('on the 0.141 ft³ tested, a leak that');
  });

  test('says where start and end alone would tell something else than all of them', () => {
    const words = 'Start and end alone say otherwise';
    expect(told(clamped).join(' ')).not.toContain(words);
    expect(told({ ...clamped, expected_end_test_pa: psig(452) })[0]).toContain(
      `so there may be none. ${words}, as where the gas does not go along with the pipe all the way; the drop allows for that.`,
    );
    expect(told({ ...leaking, expected_end_test_pa: psig(446) })[0]).toContain(words);
    // A pipe that stood still explains nothing of that.
    const still = { ...leaking, coldest_line_k: 293.3, expected_end_test_pa: psig(446) };
    expect(told(still)[0]).not.toContain(words);
  });

  test('where the pipe was much colder or warmer on the way, that is said', () => {
    expect(told({ ...clamped, warmest_line_k: 300 })[0]).toContain(
      'to 68.0 °F (between 68.0 °F and 80.3 °F on the way), by which alone',
    );
    expect(told({ ...clamped, warmest_line_k: 295 })[0]).not.toContain('on the way');
  });

  test('a leak that may take the whole charge is said so', () => {
    const small = { ...leaking, charge_target_kg: 0.5 };
    expect(told(small)[0]).toContain('a leak that may lose the whole charge within a year or far sooner, standing at');
    expect(told(small)[1]).toContain('Such a drop is, on the 0.141 ft³ tested, a leak that may lose the whole charge');
  });

  test('without volume or refrigerant the drop stands without a loss', () => {
    const { tested_volume_l: _, ...bare } = leaking;
    expect(told(bare).join(' ')).not.toMatch(/lose|ft³/);
    expect(told(bare)[1]).toMatch(/less often\.$/);
  });

  test('leaves to a finding how little could have shown, and tells of an outdoor unit that was shut', () => {
    const job = { charge_basis: 'pre-charged' } as const;
    const outdoor = 'The outdoor unit, shut on its charge, was not part of this test.';
    expect(told(clamped, { pressureBlindIsSaid: true, chargeIsOff: false })).toHaveLength(1);
    expect(told(clamped, { pressureBlindIsSaid: true, chargeIsOff: false, job })[1]).toBe(outdoor);
    // Where there was a rise test, its story tells.
    expect(told({ ...clamped, isolation_start_s: 5000 }, { job }).join(' ')).not.toContain('outdoor');
    expect(told(clamped, { job: { work_type: 'repair' } }).join(' ')).not.toContain('outdoor');
    // Of a new unit whose record does not tell it is an assumption.
    expect(told(clamped, { job: { work_type: 'install' } })[1]).toMatch(
      / The outdoor unit is taken to have been shut on its charge, and so not to have been part of this test\.$/,
    );
  });

  const others: [string, Partial<Facts>, string][] = [
    ['no log', {}, 'No log of a pressure test came with this job.'],
    [
      'a log that is cut',
      { pressure_readings: 3, pressure_problem: 'cut', highest_test_pa: psig(200) },
      'there the log ends',
    ],
    ['pressures below the air', { pressure_readings: 9, pressure_problem: 'below-air' }, 'never shows a pressure'],
    [
      'few readings',
      { pressure_readings: 2, pressure_problem: 'too-few-readings' },
      'too few readings to tell what happened (2)',
    ],
    [
      'filled and let off',
      { pressure_readings: 90, atmosphere_pa, highest_test_pa: psig(452), pressure_problem: 'never-held' },
      'The pressure test went up to 452.0 psig (450.0 psig asked for); the log never shows the system shut in and watched.',
    ],
    [
      'a log that says nothing at all',
      { pressure_readings: 90 },
      'The system was pressure-tested; the log never shows',
    ],
    [
      'several holds',
      { ...clamped, pressure_stages: 3 },
      '(450.0 psig asked for); the log shows 3 holds. In the last one at full pressure, which is told here, the system stood shut in for 30 min (30 min asked for).',
    ],
    [
      'a gap',
      { ...clamped, pressure_drop_pa: undefined, pressure_problem: 'gap' },
      'stood shut in for 30 min (30 min asked for). A gap in the log hides too much of that, so nothing is said of how the pressure held.',
    ],
    [
      'nothing to settle',
      { ...clamped, pressure_settled_s: 90 },
      'shut in for 30 min (30 min asked for). In the 30 min the pressure went from',
    ],
    [
      'no clamp',
      shutIn,
      'from 450.0 psig to 448.0 psig. As read it fell by 2.00 psi. Without a leak the gas would have to have cooled by 2.2 °F for that. The temperature of the pipe was not logged from end to end; a clamp on it, logged from the filling to the end, is what it takes to tell a leak from the weather.',
    ],
    [
      'no clamp, and how much cooling would explain it is not known',
      { ...shutIn, explaining_cooling_k: undefined },
      'As read it fell by 2.00 psi. The temperature of the pipe was not logged from end to end;',
    ],
    [
      'no clamp and no fall',
      { ...shutIn, end_test_pa: psig(450), read_drop_pa: 0 },
      'It did not fall, but gas that grew warmer may hide a drop. The temperature of the pipe was not logged from end to end;',
    ],
    [
      'too few readings between the ends',
      { ...clamped, pressure_drop_pa: undefined },
      'The readings are too few to tell a drop from what temperature did.',
    ],
    ['pressures that are not known', { ...clamped, held_test_pa: undefined }, '(30 min asked for).'],
  ];
  test.each(others)('of %s', (_, facts, words) => {
    expect(told(facts).join(' ').replaceAll('\u00a0', ' ')).toContain(words);
  });

  test('what was not asked for is not said, and a circuit that stayed closed has no story', () => {
    expect(told(clamped, { limits: { pullTargetPa: 66.66 } })[0]).not.toContain('asked for');
    expect(told({ pressure_problem: 'not-opened' })).toEqual([]);
  });

  test('never says that a system is safe, nor anything undefined', () => {
    const all = [clamped, leaking, shutIn, ...others.map(([, facts]) => facts)];
    for (const facts of all)
      for (const units of ['ip', 'si'] as const)
        expect(told(facts, { units }).join(' ')).not.toMatch(/safe|is tight|undefined|NaN|Infinity/);
  });
});
