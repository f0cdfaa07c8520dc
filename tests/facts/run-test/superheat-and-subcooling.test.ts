import { describe, expect, test } from 'vitest';
import { runTestFacts } from '../../../src/facts/run-test/run-test-facts.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import { jobOf, pressuresOf, type RunLog, runLog, saturationAt } from './run-log.ts';

const factsOf = (log: RunLog, record: Partial<Job> = {}) => runTestFacts(runLog(log), { job: jobOf(record) });
const kelvin = (fahrenheit: number) => (fahrenheit - 32) / 1.8 + 273.15;
const psi = 6894.757;

describe('superheat counts from the dew point, subcooling from the bubble point', () => {
  test.each(['R-22', 'R-32', 'R-134a', 'R-290', 'R-407C', 'R-410A', 'R-454B'])('%s', (refrigerant) => {
    const columns = { ...pressuresOf(refrigerant, 5, 40), suction_line_c: 12, liquid_line_c: 34 };
    const facts = factsOf({ columns }, { refrigerant });
    expect(Math.abs((facts.superheat_k ?? 0) - 7)).toBeLessThan(0.05);
    expect(Math.abs((facts.subcooling_k ?? 0) - 6)).toBeLessThan(0.05);
    expect(Math.abs((facts.run_dew_k ?? 0) - 278.15)).toBeLessThan(0.05);
    expect(Math.abs((facts.run_bubble_k ?? 0) - 313.15)).toBeLessThan(0.05);
  });

  test('the other way about R-407C would be off by its glide, and is not', () => {
    // Liquid that boils at 5 °C and vapour that condenses at 40 °C.
    const [suction_pa, liquid_pa] = [saturationAt('R-407C', 5).bubblePa, saturationAt('R-407C', 40).dewPa];
    const facts = factsOf({ columns: { suction_pa, liquid_pa } }, { refrigerant: 'R-407C' });
    expect(facts.superheat_k).toBeLessThan(7 - 4);
    expect(facts.subcooling_k).toBeLessThan(6 - 3);
  });

  test('with one clamp missing there is the other', () => {
    const facts = factsOf({ columns: { suction_line_c: undefined } });
    expect(facts.superheat_k).toBeUndefined();
    expect(facts.subcooling_k).toBeCloseTo(6, 1);
    expect(factsOf({ columns: { liquid_pa: undefined } })).not.toHaveProperty('subcooling_k');
  });

  test('a metering device outdoors leaves no subcooling, and what is read stands all the same', () => {
    const columns = { liquid_pa: saturationAt('R-410A', 10).bubblePa, liquid_line_c: 10 };
    const facts = factsOf({ columns }, { metering_location: 'outdoor' });
    expect(facts.liquid_line_phase).toBe('two-phase');
    expect(facts).not.toHaveProperty('subcooling_k');
    expect(facts).not.toHaveProperty('run_problem');
    expect(facts.superheat_k).toBeCloseTo(7, 1);
    expect(facts.run_liquid_pa).toBeCloseTo(columns.liquid_pa, 0);
  });
});

describe('how sure they are', () => {
  const half = ({ low, high }: { low: number | undefined; high: number | undefined }) =>
    ((high ?? Number.NaN) - (low ?? Number.NaN)) / 2;
  const superheatHalf = (log: RunLog, record: Partial<Job> = {}) => {
    const { superheat_low_k: low, superheat_high_k: high } = factsOf(log, record);
    return half({ low, high });
  };
  const subcoolingHalf = (log: RunLog, record: Partial<Job> = {}) => {
    const { subcooling_low_k: low, subcooling_high_k: high } = factsOf(log, record);
    return half({ low, high });
  };
  // R-410A boils at 0, 5, 10 °C at 798, 933, 1085 kPa: at 5 °C 28.7 kPa a kelvin; at 40 °C 60 kPa a kelvin.
  const lowSlope = (saturationAt('R-410A', 10).dewPa - saturationAt('R-410A', 0).dewPa) / 10;
  const highSlope = (saturationAt('R-410A', 45).bubblePa - saturationAt('R-410A', 35).bubblePa) / 10;
  const bare = { outdoor_c: undefined } as const;

  test('gauges and clamps on record', () => {
    const record = { pressure_accuracy_ratio: 0.01, clamp_accuracy_k: 0.5 };
    const { dewPa } = saturationAt('R-410A', 5);
    const { bubblePa } = saturationAt('R-410A', 40);
    expect(superheatHalf({ columns: bare }, record)).toBeCloseTo(Math.hypot((0.01 * dewPa) / lowSlope, 0.5), 2);
    expect(subcoolingHalf({ columns: bare }, record)).toBeCloseTo(Math.hypot((0.01 * bubblePa) / highSlope, 0.5), 2);
  });

  test('gauges of which nothing is known are good to 3.5 psi at suction, 7 psi at liquid, clamps to 1 K', () => {
    expect(superheatHalf({ columns: bare })).toBeCloseTo(Math.hypot((3.5 * psi) / lowSlope, 1), 2);
    expect(subcoolingHalf({ columns: bare })).toBeCloseTo(Math.hypot((7 * psi) / highSlope, 1), 2);
  });

  test('a clamp in hot air is a little less sure', () => {
    const record = { pressure_accuracy_ratio: 0.001, clamp_accuracy_k: 0.1 };
    const mild = superheatHalf({ columns: { outdoor_c: 12 } }, record);
    expect(superheatHalf({ columns: { outdoor_c: 40 } }, record)).toBeGreaterThan(mild + 0.1);
  });
});

describe('what is aimed at', () => {
  // 64 °F wet bulb and 90 °F outdoors: 9 °F by the table.
  const columns = { indoor_wet_bulb_c: kelvin(64) - 273.15, outdoor_c: kelvin(90) - 273.15 };

  test.each(['fixed', 'capillary'] as const)('%s: the table’s superheat', (metering) => {
    const facts = factsOf({ columns }, { metering });
    expect((facts.target_superheat_k ?? 0) * 1.8).toBeCloseTo(9, 3);
    expect(facts).toMatchObject({ target_superheat_basis: 'table', metering_kind: 'fixed' });
  });

  test.each(['txv', 'eev'] as const)('%s: no superheat, but the subcooling of the record', (metering) => {
    const facts = factsOf({ columns }, { metering, target_subcooling_k: 5.5 });
    expect(facts).not.toHaveProperty('target_superheat_k');
    expect(facts).toMatchObject({ metering_kind: 'valve', target_subcooling_k: 5.5 });
  });

  test('what the record asks for goes before the table, and needs no wet bulb', () => {
    const record = { metering: 'fixed', target_superheat_k: 6 } as const;
    for (const wetBulbC of [columns.indoor_wet_bulb_c, undefined])
      expect(factsOf({ columns: { ...columns, indoor_wet_bulb_c: wetBulbC } }, record)).toMatchObject({
        target_superheat_k: 6,
        target_superheat_basis: 'record',
      });
  });

  test('none without wet bulb or outdoors, and none off the table', () => {
    for (const missing of ['indoor_wet_bulb_c', 'outdoor_c'])
      expect(factsOf({ columns: { ...columns, [missing]: undefined } }, { metering: 'fixed' })).not.toHaveProperty(
        'target_superheat_k',
      );
    const dry = { ...columns, indoor_wet_bulb_c: 10.5, outdoor_c: 38 };
    expect(factsOf({ columns: dry }, { metering: 'fixed' })).not.toHaveProperty('target_superheat_k');
  });

  test('a compressor that may choose its speed, unless a test mode held it', () => {
    const speed = (record: Partial<Job>) => factsOf({}, record).run_speed;
    expect(speed({ compressor: 'variable' })).toBe('free');
    expect(speed({ compressor: 'variable', fixed_test_mode: false })).toBe('free');
    expect(speed({ compressor: 'variable', fixed_test_mode: true })).toBe('fixed');
    expect(speed({ compressor: 'single' })).toBeUndefined();
  });
});
