import { describe, expect, test } from 'vitest';
import { runStory } from '../../src/pages/run-story.ts';
import type { StoryMaterial } from '../../src/pages/story-material.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

// Psig count from the atmosphere at sea level; kelvins of whole degrees Fahrenheit.
const atmosphere_pa = 101_325;
const psig = (value: number) => atmosphere_pa + value * 6894.757;
const kelvin = (fahrenheit: number) => (fahrenheit - 32) / 1.8 + 273.15;
const change = (fahrenheit: number) => fahrenheit / 1.8;

const ran: Partial<Facts> = {
  run_readings: 240,
  atmosphere_pa,
  run_s: 1500,
  steady_start_s: 1100,
  steady_end_s: 1700,
  run_outdoor_k: kelvin(90),
  run_indoor_k: kelvin(78),
  run_indoor_wet_bulb_k: kelvin(66),
};
const low: Partial<Facts> = {
  run_suction_pa: psig(120),
  run_dew_k: kelvin(41),
  run_suction_line_k: kelvin(53),
  superheat_k: change(12),
  superheat_low_k: change(10),
  superheat_high_k: change(14),
};
const high: Partial<Facts> = {
  run_liquid_pa: psig(340),
  run_bubble_k: kelvin(105),
  run_liquid_line_k: kelvin(95),
  subcooling_k: change(10),
  subcooling_low_k: change(8.5),
  subcooling_high_k: change(11.5),
};
const rested: Partial<Facts> = { rest_pa: psig(226), rest_k: kelvin(77), rest_expected_pa: psig(225.7) };

function told(facts: Partial<Facts>, other: Partial<StoryMaterial> = {}): string[] {
  return runStory({
    facts,
    job: { refrigerant: 'R-410A' },
    limits: { pullTargetPa: 66.66 },
    blindIsSaid: false,
    pressureBlindIsSaid: false,
    chargeIsOff: false,
    units: 'ip',
    ...other,
  });
}

describe('the story of a run test', () => {
  test('tells how long and under what weather, both sides, the air, then the rest', () => {
    const all = { ...ran, ...low, ...high, ...rested, run_split_k: change(19), target_subcooling_k: change(11) };
    expect(told(all)).toEqual([
      'The system ran for 25 min; the last 10 min that stood still tell, at 90.0 °F outdoors, 78.0 °F indoors, 66.0 °F wet bulb. ' +
        'Suction stood at 120.0 psig (dew point 41.0 °F), its line at 53.0 °F: superheat 12.0 °F (10.0 to 14.0, 95 %). ' +
        'Liquid stood at 340.0 psig (bubble point 105.0 °F), its line at 95.0 °F: subcooling 10.0 °F (8.5 to 11.5, 95 %), where the maker asks for 11.0 °F. ' +
        'The air left the coil 19.0 °F cooler than it came.',
      'Before it started, the system stood at 226.0 psig; R-410A at 77.0 °F, the colder of outdoors and indoors, has 225.7 psig.',
    ]);
  });

  test('in bar and kelvin where these are asked for', () => {
    const si = told({ ...ran, ...low, ...high, ...rested, run_split_k: 10.6 }, { units: 'si' });
    expect(si).toEqual([
      'The system ran for 25 min; the last 10 min that stood still tell, at 32.2 °C outdoors, 25.6 °C indoors, 18.9 °C wet bulb. ' +
        'Suction stood at 8.27 bar gauge (dew point 5.0 °C), its line at 11.7 °C: superheat 6.7 K (5.6 to 7.8, 95 %). ' +
        'Liquid stood at 23.44 bar gauge (bubble point 40.6 °C), its line at 35.0 °C: subcooling 5.6 K (4.7 to 6.4, 95 %). ' +
        'The air left the coil 10.6 K cooler than it came.',
      'Before it started, the system stood at 15.58 bar gauge; R-410A at 25.0 °C, the colder of outdoors and indoors, has 15.56 bar gauge.',
    ]);
    expect(si.join(' ')).not.toMatch(/psi|°F/);
  });

  test('the same absolute pressure is another one on a gauge in Denver', () => {
    // 83.4 kPa at 1609 m: 17.9 kPa less air, 2.6 psi more on the gauge.
    const high = told({ ...ran, ...low, ...rested, atmosphere_pa: 83_400 });
    expect(high[0]).toContain('Suction stood at 122.6 psig (dew point 41.0 °F)');
    expect(high[1]).toContain('stood at 228.6 psig');
    expect(high[1]).toContain('has 228.3 psig');
    const unknown = told({ ...ran, ...low, atmosphere_pa: undefined });
    expect(unknown[0]).toContain('Suction stood at 120.0 psig');
  });

  test('a target is what the record asks for, or the table’s', () => {
    const aimed = (basis: 'record' | 'table') =>
      told({ ...ran, ...low, target_superheat_k: change(13), target_superheat_basis: basis })[0];
    expect(aimed('table')).toContain('(10.0 to 14.0, 95 %), where 13.0 °F is the table’s target.');
    expect(aimed('record')).toContain('(10.0 to 14.0, 95 %), where 13.0 °F was asked for.');
  });

  test('a metering device outdoors is said to leave no subcooling', () => {
    const outdoors = told({ ...ran, run_liquid_pa: psig(125), liquid_line_phase: 'two-phase' })[0];
    expect(outdoors).toContain('The metering device sits outdoors, so that the liquid line tells no subcooling.');
    expect(outdoors).not.toContain('Liquid stood');
    expect(told({ ...ran, liquid_line_phase: 'two-phase' })[0]).not.toContain('metering');
  });

  const others: [string, Partial<Facts>, string[]][] = [
    ['no log', {}, []],
    ['a log that never shows it running', { run_readings: 90, run_problem: 'not-running' }, []],
    [
      'a run that was short',
      { run_readings: 90, run_s: 400, run_problem: 'short' },
      ['The system was seen running for 6 min 40 s.'],
    ],
    [
      'no weather',
      { ...ran, run_outdoor_k: undefined, run_indoor_k: undefined, run_indoor_wet_bulb_k: undefined },
      ['The system ran for 25 min; the last 10 min that stood still tell.'],
    ],
    [
      'gauges without clamps',
      { ...ran, run_suction_pa: psig(120), run_dew_k: kelvin(41), run_liquid_pa: psig(340), run_bubble_k: kelvin(105) },
      [
        'The system ran for 25 min; the last 10 min that stood still tell, at 90.0 °F outdoors, 78.0 °F indoors, 66.0 °F wet bulb. ' +
          'Suction stood at 120.0 psig (dew point 41.0 °F). Liquid stood at 340.0 psig (bubble point 105.0 °F).',
      ],
    ],
    [
      'a superheat whose interval is not known',
      { ...ran, ...low, superheat_low_k: undefined },
      [
        'The system ran for 25 min; the last 10 min that stood still tell, at 90.0 °F outdoors, 78.0 °F indoors, 66.0 °F wet bulb. ' +
          'Suction stood at 120.0 psig (dew point 41.0 °F), its line at 53.0 °F: superheat 12.0 °F.',
      ],
    ],
    [
      'the rest alone',
      { run_readings: 90, atmosphere_pa, ...rested },
      [
        'Before it started, the system stood at 226.0 psig; R-410A at 77.0 °F, the colder of outdoors and indoors, has 225.7 psig.',
      ],
    ],
    ['a rest that no saturation goes with', { run_readings: 90, ...rested, rest_expected_pa: 0 }, []],
  ];
  test.each(others)('%s', (_, facts, paragraphs) => {
    expect(told(facts)).toEqual(paragraphs);
  });

  test('a superheat below nothing has its sign, and a record that names no refrigerant none', () => {
    const flooded = { superheat_k: change(-1), superheat_low_k: change(-3), superheat_high_k: change(1) };
    expect(told({ ...ran, ...low, ...flooded })[0]).toContain('superheat −1.0 °F (−3.0 to 1.0, 95 %)');
    expect(told({ ...ran, ...rested }, { job: undefined })[1]).toContain('its refrigerant at 77.0 °F');
  });
});
