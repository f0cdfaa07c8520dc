import { describe, expect, test } from 'vitest';
import { restState } from '../../../src/facts/run-test/rest-state.ts';
import { type RunLog, runLog, saturationAt } from './run-log.ts';

const { bubblePa } = saturationAt('R-410A', 25);
const found = (log: RunLog = {}) => restState(runLog({ restPa: bubblePa, ...log }));

describe('the system at rest', () => {
  test('is what both gauges showed before the first start, at the colder of outdoors and indoors', () => {
    expect(found()?.pressurePa).toBeCloseTo(bubblePa, 3);
    expect(found()?.temperatureK).toBeCloseTo(298.15, 9);
    expect(found({ columns: { outdoor_c: 20 } })?.temperatureK).toBeCloseTo(293.15, 9);
  });

  test('is sure to 1.2 K, and less where the places differ', () => {
    expect(found({ columns: { outdoor_c: 25 } })?.uncertaintyK).toBeCloseTo(1.2, 9);
    // A fifth of 2 K, and of no more than 3 K.
    expect(found({ columns: { outdoor_c: 27 } })?.uncertaintyK).toBeCloseTo(Math.hypot(1.2, 0.4), 9);
    expect(found({ columns: { outdoor_c: 40 } })?.uncertaintyK).toBeCloseTo(Math.hypot(1.2, 0.6), 9);
  });

  test('of which one place alone was read', () => {
    const roomless = { indoor_c: undefined, return_c: undefined };
    // A room is taken for 296 K: on a warm day it is the colder one, and far from sure.
    const warm = found({ columns: { ...roomless, outdoor_c: 30 } });
    expect(warm?.temperatureK).toBe(296);
    expect(warm?.uncertaintyK).toBeGreaterThan(2.5);
    const cold = found({ columns: { ...roomless, outdoor_c: 10 } });
    expect(cold?.temperatureK).toBeCloseTo(283.15, 9);
    expect(cold?.uncertaintyK).toBeLessThan(1.4);
    expect(found({ columns: { outdoor_c: undefined } })).toBeUndefined();
    // The air that returns is the room.
    expect(found({ columns: { indoor_c: undefined, return_c: 22 } })?.temperatureK).toBeCloseTo(295.15, 9);
  });

  test('is none where its sides are apart', () => {
    const apart = (ratio: number) => ({ suction_pa: bubblePa, liquid_pa: bubblePa * ratio });
    const power = (s: number) => (s < 0 ? 0 : 2000);
    const at = (ratio: number) =>
      restState(runLog({ columns: { ...apart(ratio), compressor_w: power } }))?.pressurePa ?? 0;
    expect(at(1.02)).toBeCloseTo(1.01 * bubblePa, 0);
    expect(at(1.04)).toBe(0);
  });

  test('is none while it still moves', () => {
    const moving = (perS: number) => (s: number) => bubblePa * (1 + perS * s);
    // Half of 90 s lie between the halves.
    const columns = (perS: number) => ({ suction_pa: moving(perS), liquid_pa: moving(perS) });
    expect(found({ restPa: undefined, columns: columns(0.0002) })).toBeDefined();
    expect(found({ restPa: undefined, columns: columns(0.0005) })).toBeUndefined();
  });

  test('looks at the last minute and a half of the rest alone', () => {
    const settling = (s: number) => (s < -100 ? 5e5 : bubblePa);
    const columns = { suction_pa: settling, liquid_pa: settling };
    expect(found({ restPa: undefined, restS: 600, columns })?.pressurePa).toBeCloseTo(bubblePa, 0);
  });

  test('by one gauge, where the other was not read', () => {
    expect(found({ columns: { suction_pa: undefined } })?.pressurePa).toBeCloseTo(bubblePa, 0);
  });

  test('is none where it was never seen before the start, or hardly', () => {
    expect(found({ restS: 0 })).toBeUndefined();
    expect(found({ restS: 15 })).toBeUndefined();
    expect(found({ restS: 20 })).toBeDefined();
    expect(found({ columns: { compressor_w: undefined, liquid_pa: undefined } })).toBeUndefined();
  });

  test('of a system that never ran is none: a standing pressure test looks the same', () => {
    expect(found({ runS: -5 })).toBeUndefined();
  });

  test('is none where gauges stand on the air, on a vacuum, or on a holding charge', () => {
    for (const restPa of [101_325, 98_000, 60, 0, 140_000]) expect(found({ restPa })).toBeUndefined();
    expect(found({ restPa: 160_000 })).toBeDefined();
  });

  test('metered outdoors and without power, equal pressures of a run are no rest', () => {
    const apart = (s: number) => (s < 0 ? 933_000 : 2_400_000);
    const series = runLog({ columns: { suction_pa: 933_000, liquid_pa: apart, compressor_w: undefined } });
    expect(restState(series)).toBeDefined();
    expect(restState(series, false)).toBeUndefined();
  });
});
