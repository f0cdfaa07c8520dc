import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { pullDownThroughHose, systemPumpingSpeed, tubePassage } from '../../src/physics/index.ts';
import { PullDownTable } from '../../src/physics/pull-down-table.ts';
import { valveCore } from '../../src/physics/valve-core.ts';
import { referenceRows } from '../reference-rows.ts';

const core = tubePassage(valveCore.boreM, valveCore.lengthM);

describe('PullDownTable', () => {
  test.each(referenceRows('pull-down-hoses'))(
    'reproduces the pull-down through a hose of $bore_in in, table pull-down-hoses, within 0.1 %',
    ({ bore_in: boreIn, passage_s: passageS }) => {
      const passages = [tubePassage(boreIn * 0.0254, 1.524)];
      const table = new PullDownTable({ pumpSpeedM3PerS: 0.0028317, passages });
      expect(Math.abs((0.005 * table.secondsPerM3(101_325, 66.661184)) / passageS - 1)).toBeLessThan(0.001);
    },
  );

  test('agrees with pullDownThroughHose within 0.5 % for random trains and pressures', () => {
    const random = new Random(3);
    let looked = 0;
    for (let trial = 0; trial < 60; trial += 1) {
      const floorPa = random.choice([0, 2, 3, 20]);
      const hose = tubePassage(random.logUniform(0.003, 0.02), random.logUniform(0.1, 10));
      const pump = {
        pumpSpeedM3PerS: random.logUniform(0.0005, 0.02),
        floorPa,
        passages: trial % 2 === 0 ? [core, hose] : [hose],
      };
      const table = new PullDownTable(pump);
      for (let pair = 0; pair < 4; pair += 1) {
        const [a, b] = [0, 1].map(() => floorPa + random.logUniform(0.6, 115_000));
        const [startPa, endPa] = [Math.max(a, b), Math.min(a, b)];
        if (startPa - endPa < 1) continue;
        const exactS = pullDownThroughHose({ ...pump, volumeM3: 1, startPa, endPa });
        expect(Math.abs(table.secondsPerM3(startPa, endPa) / exactS - 1)).toBeLessThan(0.005);
        looked += 1;
      }
    }
    expect(looked).toBeGreaterThan(200);
  });

  test('stretches add up, and take longer the further down', () => {
    const table = new PullDownTable({ pumpSpeedM3PerS: 0.0028, floorPa: 3, passages: [tubePassage(0.0064, 1.5)] });
    const [upper, lower] = [table.secondsPerM3(100_000, 777), table.secondsPerM3(777, 33.3)];
    expect(upper + lower).toBeCloseTo(table.secondsPerM3(100_000, 33.3), 6);
    let before = 0;
    for (let toPa = 90_000; toPa > 5; toPa *= 0.97) {
      const seconds = table.secondsPerM3(100_000, toPa);
      expect(seconds).toBeGreaterThan(before);
      before = seconds;
    }
  });

  test('no time where the end is not below the start, no end at the pump’s floor', () => {
    const table = new PullDownTable({ pumpSpeedM3PerS: 0.0028, floorPa: 3, passages: [] });
    expect(table.secondsPerM3(100, 100)).toBe(0);
    expect(table.secondsPerM3(100, 200)).toBe(0);
    expect(table.secondsPerM3(100, 3.4)).toBe(Number.POSITIVE_INFINITY);
    expect(table.secondsPerM3(100, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(table.secondsPerM3(100, 3.6)).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  test('the system’s pressure behind the pump’s inlet takes the same throughput, within 0.5 %', () => {
    const pump = { pumpSpeedM3PerS: 0.0028, floorPa: 3, passages: [core, tubePassage(0.0064, 1.5)] };
    const table = new PullDownTable(pump);
    for (const inletPa of [3.5, 10, 66, 500]) {
      const systemPa = table.systemPa(inletPa);
      const throughput = systemPa * systemPumpingSpeed(pump, systemPa);
      expect(Math.abs(throughput / (0.0028 * (inletPa - 3)) - 1)).toBeLessThan(0.005);
    }
    expect(table.systemPa(3)).toBeNaN();
    expect(table.systemPa(101_325)).toBe(120_000);
  });

  test('a pump that does not pump is refused', () => {
    expect(() => new PullDownTable({ pumpSpeedM3PerS: 0, passages: [] })).toThrow(
      'pumping speed [m³/s] out of range: must be above 0 and finite, received 0',
    );
  });
});
