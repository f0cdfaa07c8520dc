import { describe, expect, test } from 'vitest';
import { evacuationStory } from '../../src/pages/evacuation-story.ts';
import type { StoryMaterial } from '../../src/pages/story-material.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

// One micron of mercury is 0.133322368 Pa.
const micron = 0.133322368;

const evacuated: Partial<Facts> = {
  vacuum_readings: 900,
  pulls: 1,
  deepest_pa: 100 * micron,
  pull_down_s: 250,
  pull_down_predicted_s: 184,
  pumped_until: 'isolation',
};
const isolated: Partial<Facts> = {
  ...evacuated,
  isolation_start_s: 1200,
  isolation_start_low_s: 1197,
  isolation_start_high_s: 1203,
  isolation_end_s: 1803,
  isolation_pa: 250 * micron,
  isolation_end_pa: 290 * micron,
  rise_pa: 40 * micron,
  rise_shape: 'dry',
  leak_pa_per_s: (2 * micron) / 60,
  leak_low_pa_per_s: 0,
  leak_high_pa_per_s: (4 * micron) / 60,
  smallest_rise_seen_pa_per_s: (0.5 * micron) / 60,
  smallest_leak_seen_pa_per_s: (9 * micron) / 60,
};
const limits = {
  pullTargetPa: 500 * micron,
  targetPa: 500 * micron,
  heldS: 905,
  wantedS: 900,
  testS: 600,
  limitPa: 500 * micron,
  limitKind: 'level',
  judgedPa: 290 * micron,
  judgedS: 600,
} as const;

/** The story of some facts, in microns. */
function told(facts: Partial<Facts>, other: Partial<StoryMaterial> = {}): string[] {
  return evacuationStory({
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

describe('the story of an evacuation', () => {
  test('tells what happened in the order of the work, then what could not have shown', () => {
    expect(told(isolated)).toEqual([
      'It took 4 min 10 s to pull down to 500 µm (dry gas through this pump and hose: about 3 min), and the lowest was 100 µm. ' +
        'With the pump on it stayed at or below 500 µm for 15 min 5 s (15 min wanted). ' +
        'It was valved off at 250 µm and watched for 10 min 3 s (10 min asked for). ' +
        'The pressure rose by 40.0 µm, to 290 µm; at most 500 µm was allowed. ' +
        'That is next to nothing. A leak explains at most 4.00 µm/min of it.',
      'A leak of less than 0.500 µm/min would not have shown. Only from 9.00 µm/min on would such a test have proved a leak; a smaller one would have been left open.',
    ]);
  });

  test('in the units asked for', () => {
    const si = told({ ...isolated, gauge_accuracy_ratio: 0.1 }, { units: 'si' }).join(' ');
    expect(si).toContain('valved off at 33.3 Pa');
    expect(si).toContain('rose by 5.33 Pa, to 38.7 Pa (by a gauge good to 10 %)');
    expect(si).not.toMatch(/µm|\boz\b|\blb\b|\bft/);
  });

  test('leaves out from what size a leak could have been told where that is beyond what was allowed', () => {
    // 26 µm/min make 261 µm in 603 s, and 250 µm were left.
    const dull = { ...isolated, smallest_leak_seen_pa_per_s: (26 * micron) / 60 };
    expect(told(dull)[1]).toBe('A leak of less than 0.500 µm/min would not have shown.');
    expect(told(dull, { limits: { ...limits, limitKind: 'rise', limitPa: 300 * micron } })[1]).toContain('26.0 µm/min');
  });

  test('leaves to a finding how little could have shown, and tells of an outdoor unit that was shut', () => {
    const job = { charge_basis: 'pre-charged' } as const;
    expect(told(isolated, { blindIsSaid: true })).toHaveLength(1);
    expect(told(isolated, { blindIsSaid: true, job })[1]).toBe(
      'The outdoor unit, shut on its charge, was not part of this test.',
    );
    expect(told(evacuated, { job }).join(' ')).not.toContain('outdoor');
    expect(told({ ...isolated, pressure_hold_start_s: 90 }, { job })[1]).toContain('was part of neither test.');
    // A new unit comes pre-charged unless the record says otherwise.
    expect(told(isolated, { job: { work_type: 'install' } }).join(' ')).toContain('outdoor');
    expect(told(isolated, { job: { work_type: 'repair' } }).join(' ')).not.toContain('outdoor');
  });

  test('what was held against the limit is said where the end of the test tells something else', () => {
    const judged = (judgedPa: number) => told(isolated, { limits: { ...limits, judgedPa, judgedS: 300 } })[0];
    expect(judged(289 * micron)).toContain('to 290 µm; at most 500 µm was allowed.');
    expect(judged(270 * micron)).toContain(
      'to 290 µm; after 5 min, when the limit counts, it was at 270 µm of 500 µm allowed.',
    );
    // The same to the eye, but on either side of the limit.
    const close = { ...limits, judgedPa: 289 * micron, judgedS: 300, limitPa: 289.5 * micron };
    expect(told(isolated, { limits: close })[0]).toContain('after 5 min, when the limit counts, it was at 289 µm');
    const ofRise = {
      ...limits,
      limitKind: 'rise',
      limitPa: 300 * micron,
      judgedPa: 270 * micron,
      judgedS: 300,
    } as const;
    expect(told(isolated, { limits: ofRise })[0]).toContain(
      'after 5 min, when the limit counts, it had risen by 20.0 µm of 300 µm allowed.',
    );
  });

  const shapes: [string, Partial<Facts>, string][] = [
    [
      'leak',
      { rise_shape: 'leak', leak_low_pa_per_s: (1.5 * micron) / 60 },
      'It climbed steadily by 2.00 µm/min (1.50 to 4.00, 95 %), as with a leak.',
    ],
    [
      'moisture',
      {
        rise_shape: 'moisture',
        plateau_pa: 300 * micron,
        plateau_low_pa: 280 * micron,
        plateau_high_pa: 1320 * micron,
      },
      'It slackened, as with moisture or outgassing, and has levelled near 300 µm (280 to 1 320 µm). A leak explains at most 4.00 µm/min of it.',
    ],
    [
      'moisture on its way to a level',
      { rise_shape: 'moisture', plateau_pa: 400 * micron, plateau_low_pa: 350 * micron, plateau_high_pa: 500 * micron },
      'and heads for 400 µm (350 to 500 µm).',
    ],
    [
      'moisture that a small leak took past its level',
      { rise_shape: 'moisture', plateau_pa: 280 * micron, plateau_low_pa: 270 * micron, plateau_high_pa: 300 * micron },
      'and heads, a leak left aside, for 280 µm (270 to 300 µm).',
    ],
    [
      'moisture that may level anywhere',
      { rise_shape: 'moisture', plateau_pa: 900 * micron, plateau_low_pa: 280 * micron },
      'It slackened, as with moisture or outgassing, towards a level of 280 µm or more.',
    ],
    [
      'mixed',
      { rise_shape: 'mixed', vapour_rise_pa: 20 * micron, leak_low_pa_per_s: (1.5 * micron) / 60 },
      '20.0 µm of it slackened, as with moisture or outgassing; 2.00 µm/min (1.50 to 4.00, 95 %) did not, as with a leak.',
    ],
    [
      'mixed, and how much slackened is not known',
      { rise_shape: 'mixed', leak_low_pa_per_s: (1.5 * micron) / 60 },
      '290 µm; at most 500 µm was allowed. Part of it slackened, as with moisture or outgassing; 2.00 µm/min',
    ],
    [
      'above the range of the gauge',
      { rise_shape: 'undecided', isolation_over: true },
      "The pressure went above the gauge's range; its last reading within it was 290 µm; at most 500 µm was allowed.",
    ],
    [
      'settling',
      { rise_shape: 'settling', settling_rise_pa: 35 * micron },
      'It came at once, as pressures evened out after valve-off.',
    ],
    [
      'undecided',
      { rise_shape: 'undecided' },
      'The curve does not tell what it was made of: a leak of up to 4.00 µm/min, moisture or outgassing.',
    ],
    [
      'undecided with a steady part',
      { rise_shape: 'undecided', leak_low_pa_per_s: (1.5 * micron) / 60, settling_rise_pa: 10 * micron },
      'but 1.50 to 4.00 µm/min of it is steady (95 %). 10.0 µm came at once, as pressures evened out.',
    ],
    [
      'no fit',
      { leak_pa_per_s: undefined, rise_shape: 'undecided' },
      'The readings are too few to tell what it was made of.',
    ],
    [
      'no rise',
      { rise_pa: -0.2, isolation_end_pa: 250 * micron - 0.2 },
      'The pressure did not rise: 250 µm, then 248 µm; at most 500 µm was allowed. A leak is at most 4.00 µm/min.',
    ],
  ];
  test.each(shapes)('of a rise: %s', (_, facts, sentence) => {
    const [story = ''] = told({ ...isolated, ...facts });
    expect(story.replaceAll('\u00a0', ' ')).toContain(sentence);
  });

  const others: [string, Partial<Facts>, string][] = [
    ['no log', {}, 'No vacuum log came with this job.'],
    [
      'compound gauge',
      { vacuum_readings: 9, vacuum_problem: 'compound-gauge' },
      'on a compound gauge, which cannot tell microns',
    ],
    ['few readings', { vacuum_readings: 7, vacuum_problem: 'too-few-readings' }, 'has only 7 readings'],
    [
      'triple evacuation',
      { ...isolated, pulls: 3 },
      'The system was pulled down three times, broken or valved off in between',
    ],
    ['not deep enough', { ...evacuated, deepest_pa: 120 }, 'came down to 900 µm and not to its target of 500 µm'],
    ['always above the gauge', { ...evacuated, deepest_pa: undefined }, 'The gauge stayed above its range'],
    ['log begins in the pull', { ...evacuated, pull_down_s: undefined }, 'how long that took does not show'],
    [
      'log begins isolated',
      { ...isolated, pumped_until: undefined },
      'The log shows no pull-down; its lowest reading is 100 µm.',
    ],
    [
      'water',
      { ...evacuated, stall_s: 250, stall_pa: 2500, stall_at: 'vapour' },
      'stood for 4 min 10 s at 18 752 µm, where water boils off',
    ],
    ['ice', { ...evacuated, stall_s: 250, stall_pa: 612, stall_at: 'ice' }, 'near where water freezes'],
    ['a stall of who knows what', { ...evacuated, stall_s: 250, stall_pa: 2500 }, 'as when something boils off'],
    [
      'valve-off not sharp',
      { ...isolated, isolation_start_low_s: 1143 },
      'watched for 10 min 3 s (10 min to 11 min, as the valve-off does not show sharply; 10 min asked for)',
    ],
    ['valve-off by its mark', { ...isolated, isolation_basis: 'mark' }, 'By the mark in the log it was valved off'],
    [
      'valve-off by its mark alone',
      { ...isolated, isolation_basis: 'mark', isolation_start_low_s: 600, isolation_start_high_s: 1803 },
      'watched for 10 min 3 s (the pressure itself does not show when; 10 min asked for)',
    ],
    ['never isolated', { ...evacuated, rise_shape: 'absent', pumped_until: 'break' }, 'was not isolated under vacuum'],
    [
      'log ends',
      { ...evacuated, rise_shape: 'absent', pumped_until: 'log-end' },
      'for 15 min 5 s (15 min wanted). The log ends with the pump still on',
    ],
    [
      'isolation that may hide',
      { ...evacuated, rise_shape: 'undecided', pumped_until: 'break' },
      'No valve-off shows; on a very tight, dry system a valve-off may hide in the long flat stretch',
    ],
    ['marks tell of none', { ...evacuated, turns_up: true, pumped_until: 'break' }, 'turns up a little'],
  ];
  test.each(others)('of %s', (_, facts, words) => {
    expect(told(facts).join(' ').replaceAll('\u00a0', ' ')).toContain(words);
  });

  test('never says that a system is safe, nor anything undefined', () => {
    for (const [, facts] of [...shapes.map(([name, facts]) => [name, { ...isolated, ...facts }] as const), ...others])
      expect(told(facts).join(' ')).not.toMatch(/safe|undefined|NaN|Infinity/);
  });
});
