import { describe, expect, test } from 'vitest';
import { type RunPattern, runPatterns } from '../../../src/facts/run-test/pattern-signs.ts';
import { runFacts } from '../../../src/facts/run-test/run-facts.ts';
import { runPatternFacts } from '../../../src/facts/run-test/run-pattern.ts';
import type { Facts } from '../../../src/records/tables/facts.ts';
import { jobOf, runLog, saturationAt } from './run-log.ts';

type Kind = 'valve' | 'fixed';

/** Readings of a system with nothing wrong, and by how much they are off [K]; pressure at rest as a ratio. */
interface Off {
  readonly suctionK?: number;
  readonly liquidK?: number;
  readonly superheatK?: number;
  readonly subcoolingK?: number;
  readonly splitK?: number;
  readonly rest?: number;
}

/** A room of 26 °C and a day of 32 °C. */
function readings(kind: Kind, off: Off = {}): Partial<Facts> {
  const { suctionK = 0, liquidK = 0, superheatK = 0, subcoolingK = 0, splitK = 0, rest = 0 } = off;
  const superheat = 6 + superheatK;
  const subcooling = 5.5 + subcoolingK;
  return {
    metering_kind: kind,
    run_indoor_k: 299.15,
    run_indoor_wet_bulb_k: 291.85,
    run_outdoor_k: 305.15,
    run_dew_k: 299.15 - 18.5 + suctionK,
    run_bubble_k: 305.15 + 11 + liquidK,
    superheat_k: superheat,
    superheat_low_k: superheat - 1,
    superheat_high_k: superheat + 1,
    subcooling_k: subcooling,
    subcooling_low_k: subcooling - 1,
    subcooling_high_k: subcooling + 1,
    target_superheat_k: 6,
    target_subcooling_k: 5.5,
    run_split_k: 10.5 + splitK,
    rest_pa: 1.5e6 * (1 + rest),
    rest_expected_pa: 1.5e6,
    rest_deviation: rest / 0.01 || 0.001,
  };
}

/** What tables of symptoms say, at a size that nobody would miss. */
const faults: Record<Exclude<RunPattern, 'none'>, Record<Kind, Off>> = {
  'low-charge': {
    valve: { suctionK: -4, liquidK: -4, superheatK: 5, subcoolingK: -5.5, splitK: -2 },
    fixed: { suctionK: -6, liquidK: -5, superheatK: 13, subcoolingK: -5.5, splitK: -3 },
  },
  overcharge: {
    valve: { liquidK: 6, subcoolingK: 10 },
    fixed: { suctionK: 3, liquidK: 7, superheatK: -5.5, subcoolingK: 10, splitK: -1 },
  },
  restriction: {
    valve: { suctionK: -14, liquidK: -5, superheatK: 16, subcoolingK: 3, splitK: -5 },
    fixed: { suctionK: -12, liquidK: -5, superheatK: 16, subcoolingK: 4, splitK: -6 },
  },
  'poor-airflow': {
    valve: { suctionK: -7, liquidK: -2, superheatK: -1, subcoolingK: 1, splitK: 8 },
    fixed: { suctionK: -7, liquidK: -2, superheatK: -5.8, subcoolingK: 1, splitK: 8 },
  },
  'non-condensables': {
    valve: { liquidK: 10, subcoolingK: 10, rest: 0.1 },
    fixed: { suctionK: 2, liquidK: 10, superheatK: -4, subcoolingK: 8, rest: 0.1 },
  },
};
const cases = runPatterns.flatMap((pattern) =>
  pattern === 'none' ? [] : (['valve', 'fixed'] as const).map((kind) => [pattern, kind] as const),
);
const signsOf = ({ run_signs }: Partial<Facts>) =>
  JSON.parse(run_signs ?? '[]') as { reading: string; off: number; for: string }[];
const speaking = (facts: Partial<Facts>, side: string) =>
  signsOf(facts)
    .filter((sign) => sign.for === side)
    .map(({ reading }) => reading);

describe('the pattern over all readings', () => {
  test.each(cases)('is %s with its readings, by a %s', (pattern, kind) => {
    const facts = runPatternFacts(readings(kind, faults[pattern][kind]));
    expect(facts.run_pattern).toBe(pattern);
    expect(facts.run_pattern_ratio).toBeGreaterThan(0.7);
    expect(speaking(facts, pattern).length).toBeGreaterThan(1);
  });

  test.each(['valve', 'fixed'] as const)('is none where nothing is off, by a %s', (kind) => {
    const facts = runPatternFacts(readings(kind));
    expect(facts.run_pattern).toBe('none');
    expect(facts.run_pattern_ratio).toBeGreaterThan(0.85);
    expect(signsOf(facts).map(({ off }) => Math.abs(off) < 0.001)).toEqual(Array.from({ length: 6 }, () => true));
  });

  test('gives each pattern a probability, one in all', () => {
    const shares = JSON.parse(runPatternFacts(readings('fixed', { superheatK: 4 })).run_patterns ?? '{}');
    expect(Object.keys(shares)).toEqual([...runPatterns]);
    expect(Object.values<number>(shares).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 2);
  });

  test('names the readings for and against', () => {
    // Short by all but a split as it should be, and a little more than that.
    const off = { ...faults['low-charge'].fixed, splitK: 3 };
    const facts = runPatternFacts(readings('fixed', off));
    expect(facts.run_pattern).toBe('low-charge');
    expect(speaking(facts, 'low-charge')).toEqual(expect.arrayContaining(['superheat', 'subcooling']));
    expect(speaking(facts, 'none')).toEqual(['air temperature split']);
    expect(signsOf(facts).find(({ reading }) => reading === 'subcooling')?.off).toBeCloseTo(-5.5, 6);
  });

  test('is unclear where two are as likely, and where readings are few', () => {
    // Liquid pressure and subcooling high: too much charge, or air, and no rest that tells.
    const { rest_pa: _, ...restless } = readings('valve', { liquidK: 6, subcoolingK: 6 });
    expect(runPatternFacts(restless).run_pattern).toBe('unclear');
    const { metering_kind, run_dew_k, run_indoor_k, run_split_k } = readings('valve');
    expect(runPatternFacts({ metering_kind, run_dew_k, run_indoor_k, run_split_k }).run_pattern).toBe('unclear');
  });

  test('the pressure at rest tells air from too much charge', () => {
    const off = { liquidK: 7, subcoolingK: 7 };
    const share = (rest: number, pattern: RunPattern) =>
      JSON.parse(runPatternFacts(readings('valve', { ...off, rest })).run_patterns ?? '{}')[pattern];
    expect(share(0.08, 'non-condensables')).toBeGreaterThan(0.9);
    expect(share(0, 'overcharge')).toBeGreaterThan(0.8);
  });

  test('is none at all by one reading, or where nobody says what meters', () => {
    const { metering_kind, run_split_k, ...others } = readings('valve');
    expect(runPatternFacts({ metering_kind, run_split_k })).toEqual({});
    expect(runPatternFacts({ run_split_k, ...others })).toEqual({});
    // An orifice's superheat without its target says nothing.
    expect(runPatternFacts({ metering_kind: 'fixed', run_split_k, superheat_k: 8 })).toEqual({});
  });

  test('leaves the liquid pressure out where the metering device sits outdoors', () => {
    const { subcooling_k: _, ...facts } = readings('valve', { liquidK: -30 });
    const found = runPatternFacts({ ...facts, liquid_line_phase: 'two-phase' });
    expect(signsOf(found).map(({ reading }) => reading)).toEqual([
      'suction pressure',
      'superheat',
      'air temperature split',
      'pressure at rest',
    ]);
    expect(found.run_pattern).toBe('none');
  });

  test('holds a split against how dry the air is', () => {
    // 4 K drier air is cooled by 2.8 K more.
    const dry = { ...readings('valve', { splitK: 2.8 }), run_indoor_wet_bulb_k: 287.85 };
    const split = signsOf(runPatternFacts(dry)).find(({ reading }) => reading === 'air temperature split');
    expect(split?.off).toBeCloseTo(0, 6);
  });
});

test('all that a run shows comes together: its air, its run, its rest, its pattern, its power', () => {
  expect(runFacts(undefined, { job: jobOf() })).toEqual({});
  const series = runLog({ restPa: saturationAt('R-410A', 25).bubblePa });
  expect(runFacts(series, { job: jobOf({ barometer_pa: undefined, altitude_m: 1609 }) })).toMatchObject({
    atmosphere_pa: expect.closeTo(83_400, -3),
    run_readings: 385,
    refrigerant_seen: 'both',
    run_pattern: expect.any(String),
    vacuum_run_s: 0,
  });
});
