import { describe, expect, test } from 'vitest';
import { type RunningState, refrigerantFacts } from '../../../src/facts/run-test/refrigerant-facts.ts';
import type { RestState } from '../../../src/facts/run-test/rest-state.ts';
import { runFacts } from '../../../src/facts/run-test/run-facts.ts';
import { jobOf, pressuresOf, runLog, saturationAt } from './run-log.ts';

const usual = { pressure_accuracy_ratio: 0.01 } as const;
const restOf = (pressurePa: number, celsius = 25): RestState => ({
  pressurePa,
  gauges: 2,
  temperatureK: celsius + 273.15,
  uncertaintyK: 1.2,
});
const ofRest = (refrigerant: string, rest: RestState) => refrigerantFacts({ refrigerant, ...usual }, rest, undefined);
const told = ['R-410A', 'R-22', 'R-134a', 'R-407C'] as const;
const pairs = told.flatMap((recorded) =>
  told.filter((filled) => filled !== recorded).map((filled) => [recorded, filled] as const),
);
const alike = (facts: { refrigerants_alike?: string | undefined }) => facts.refrigerants_alike?.split(', ') ?? [];

describe('at rest', () => {
  // R-22 is seven eighths of R-407C: see below.
  test.each(pairs.filter(([recorded, filled]) => recorded !== 'R-407C' || filled !== 'R-22'))(
    '%s on record, %s in it',
    (recorded, filled) => {
      const facts = ofRest(recorded, restOf(saturationAt(filled, 25).bubblePa));
      // What boils alike may be named in its place.
      expect([filled, ...alike(ofRest(filled, restOf(saturationAt(filled, 25).bubblePa)))]).toContain(
        facts.likely_refrigerant,
      );
      expect(facts.likely_refrigerant_ratio).toBeGreaterThanOrEqual(
        recorded === 'R-22' && filled === 'R-407C' ? 0.4 : 0.99,
      );
    },
  );

  test('R-22 where R-407C is on record is told by a good thermometer alone, R-407C for R-22 may be air', () => {
    const rest = restOf(saturationAt('R-22', 25).bubblePa);
    expect(ofRest('R-407C', rest)).not.toHaveProperty('likely_refrigerant');
    expect(ofRest('R-407C', rest).likely_refrigerant_ratio).toBeGreaterThan(0.05);
    expect(ofRest('R-407C', { ...rest, uncertaintyK: 0.3 }).likely_refrigerant).toBe('R-22');
    expect(ofRest('R-22', restOf(saturationAt('R-407C', 25).bubblePa)).air_ratio).toBeGreaterThan(0.3);
  });

  test.each([...told, 'R-32', 'R-290', 'R-454B'])(
    '%s itself is not doubted within two standard uncertainties',
    (own) => {
      for (const celsius of [10, 25, 35]) {
        const { bubblePa } = saturationAt(own, celsius);
        const at = ofRest(own, restOf(bubblePa, celsius));
        expect(Math.abs(at.rest_deviation ?? 9)).toBeLessThan(0.1);
        expect(Math.abs((at.rest_expected_pa ?? 0) / bubblePa - 1)).toBeLessThan(0.002);
        // Of the air's temperature alone 1.2 K are left open, gauges come on top of that.
        const onePa = ((saturationAt(own, celsius + 5).bubblePa - bubblePa) / 5) * 1.2;
        for (const side of [-2, 2]) {
          const facts = ofRest(own, restOf(bubblePa + side * onePa, celsius));
          expect(facts.likely_refrigerant, `${side} at ${celsius} °C`).toBeUndefined();
        }
      }
    },
  );

  test('R-410A and R-32 are alike: never claimed, but named as such', () => {
    for (const celsius of [5, 15, 25, 35])
      for (const [recorded, filled] of [
        ['R-410A', 'R-32'],
        ['R-32', 'R-410A'],
      ] as const) {
        const facts = ofRest(recorded, restOf(saturationAt(filled, celsius).bubblePa, celsius));
        expect(facts.likely_refrigerant).toBeUndefined();
        expect(alike(facts)).toContain(filled);
      }
  });

  test('a few per cent above is air rather than another, a few below is neither', () => {
    const { bubblePa } = saturationAt('R-410A', 25);
    const above = ofRest('R-410A', restOf(1.15 * bubblePa));
    expect(above.air_ratio).toBeGreaterThan(0.5);
    expect(above.air_ratio).toBeGreaterThan(above.likely_refrigerant_ratio ?? 1);
    const below = ofRest('R-410A', restOf(0.95 * bubblePa));
    expect(below.air_ratio).toBeLessThan(0.05);
    expect(below.likely_refrigerant).toBeUndefined();
    // The more, the likelier.
    const shares = [1, 1.04, 1.08, 1.12].map((ratio) => ofRest('R-410A', restOf(ratio * bubblePa)).air_ratio ?? 0);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  });

  test('a better gauge and thermometer doubt sooner', () => {
    const pressurePa = saturationAt('R-410A', 25).bubblePa * 1.08;
    const rough = ofRest('R-410A', restOf(pressurePa));
    const fine = refrigerantFacts(
      { refrigerant: 'R-410A', pressure_accuracy_ratio: 0.002 },
      { ...restOf(pressurePa), uncertaintyK: 0.3 },
      undefined,
    );
    expect(fine.rest_deviation).toBeGreaterThan(2 * (rough.rest_deviation ?? 9));
    expect(fine.air_ratio).toBeGreaterThan(rough.air_ratio ?? 1);
  });
});

describe('running', () => {
  const state = (filled: string): RunningState => ({
    suctionPa: saturationAt(filled, 5).dewPa,
    liquidPa: saturationAt(filled, 40).bubblePa,
    suctionLineK: 285.15,
    liquidLineK: 307.15,
    outdoorK: 303.15,
    indoorK: 298.15,
  });
  const ofRun = (recorded: string, filled: string) =>
    refrigerantFacts({ refrigerant: recorded, ...usual }, undefined, state(filled));

  test.each(told)('%s itself is seen to be that', (own) => {
    const facts = ofRun(own, own);
    expect(facts.refrigerant_seen).toBe('run');
    expect(facts).not.toHaveProperty('likely_refrigerant');
    expect(facts).not.toHaveProperty('rest_pa');
    expect(facts).not.toHaveProperty('refrigerants_alike');
  });

  test('far pressures tell another, the rest makes it certain', () => {
    const rest = restOf(saturationAt('R-22', 25).bubblePa);
    const alone = ofRun('R-410A', 'R-22').likely_refrigerant_ratio ?? 0;
    const both = refrigerantFacts({ refrigerant: 'R-410A', ...usual }, rest, state('R-22'));
    expect(alone).toBeGreaterThan(0.5);
    expect(both.refrigerant_seen).toBe('both');
    expect(both.likely_refrigerant_ratio).toBeGreaterThanOrEqual(Math.max(alone, 0.99));
  });
});

describe('nothing is said', () => {
  test('of a refrigerant that is not known, or without readings', () => {
    expect(ofRest('R-999', restOf(1e6))).toEqual({});
    expect(refrigerantFacts(undefined, restOf(1e6), undefined)).toEqual({});
    expect(refrigerantFacts({ refrigerant: 'R-410A' }, undefined, undefined)).toEqual({});
  });

  test('of gauges on the air before the start', () => {
    const facts = runFacts(runLog({ restPa: 101_325 }), { job: jobOf() });
    expect(facts.refrigerant_seen).toBe('run');
    expect(facts).not.toHaveProperty('likely_refrigerant');
  });

  test('by a run whose columns are swapped or whose clamp is off', () => {
    const { suction_pa: liquid_pa, liquid_pa: suction_pa } = pressuresOf('R-410A', 5, 40);
    const swapped = runFacts(runLog({ restS: 0, columns: { suction_pa, liquid_pa } }), { job: jobOf() });
    expect(swapped.run_problem).toBe('swapped');
    expect(swapped).not.toHaveProperty('refrigerant_seen');
    const off = runFacts(runLog({ restS: 0, columns: { suction_line_c: 25.3 } }), { job: jobOf() });
    expect(off.run_problem).toBe('clamp-off');
    expect(off).not.toHaveProperty('refrigerant_seen');
  });

  test('by the liquid line where the metering device sits outdoors', () => {
    const columns = { liquid_pa: saturationAt('R-410A', 5).bubblePa * 1.05, liquid_line_c: 6 };
    const facts = runFacts(runLog({ restPa: saturationAt('R-410A', 25).bubblePa, columns }), {
      job: jobOf({ metering_location: 'outdoor' }),
    });
    expect(facts.refrigerant_seen).toBe('both');
    expect(facts).not.toHaveProperty('likely_refrigerant');
  });
});
