import { describe, expect, test } from 'vitest';
import { refrigerantFluids } from '../../../src/physics/fluids/fluids.ts';
import { composeRefrigerant, saturationAtTemperature } from '../../../src/physics/index.ts';
import { binaryPairs } from '../../../src/physics/refrigerants/binary-pairs.ts';
import { referenceCells } from '../../reference-rows.ts';

describe('binary pairs', () => {
  test.each(referenceCells('coolprop-pairs'))(
    'reproduces $first with $second at $temperature_c °C, CoolProp 8.0',
    (row) => {
      const blend = composeRefrigerant('of two', { [row.first]: 0.4, [row.second]: 0.6 });
      const saturation = saturationAtTemperature(blend, Number(row.temperature_c) + 273.15);
      if (!saturation.converged) throw new Error('not converged');
      expect(saturation.bubblePa / Number(row.bubble_pa)).toBeCloseTo(1, 7);
      expect(saturation.dewPa / Number(row.dew_pa)).toBeCloseTo(1, 7);
      expect(saturation.liquidKgPerM3 / Number(row.liquid_kg_per_m3)).toBeCloseTo(1, 7);
      expect(saturation.vapourKgPerM3 / Number(row.vapour_kg_per_m3)).toBeCloseTo(1, 7);
    },
  );

  test('all but three are here, and stand once', () => {
    const names = refrigerantFluids.map((fluid) => fluid.designation);
    const key = (between: readonly string[]) => [...between].sort().join(' with ');
    const known = binaryPairs.map(({ between }) => key(between));
    expect(new Set(known).size).toBe(known.length);
    const all = names.flatMap((a, i) => names.slice(i + 1).map((b) => key([a, b])));
    expect(known.filter((pair) => !all.includes(pair))).toEqual([]);
    expect(all.filter((pair) => !known.includes(pair)).sort()).toEqual([
      'R-1234yf with R-22',
      'R-1234ze(E) with R-22',
      'R-125 with R-22',
    ]);
  });
});
