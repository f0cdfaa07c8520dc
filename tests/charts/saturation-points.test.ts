import type { TopLevelSpec } from 'vega-lite';
import { expect, test } from 'vitest';
import { type SaturationPointsOptions, saturationPoints } from '../../src/charts/saturation-points.ts';
import { runSample } from '../pages/run-sample.ts';
import { valuesOf } from './values-of.ts';

const { curve, superheat, subcooling, atmospherePa } = runSample();
if (curve === null || superheat === null || subcooling === null) throw new Error('the sample has no steady run');
const options = {
  suction: { pressurePa: 920_000, gap: superheat, targetK: null },
  liquid: { pressurePa: 2_500_000, gap: subcooling, targetK: 5.5 },
  atmospherePa,
  units: 'si',
} as const satisfies SaturationPointsOptions;

/** The rows of its sides. */
const sidesOf = (chart: TopLevelSpec | null) => valuesOf(chart as TopLevelSpec, 'sides') as Record<string, unknown>[];

/** Where temperatures and pressures begin and end. */
function domainsOf(chart: object | null): { x: [number, number]; y: [number, number] } {
  const [{ encoding }] = (
    chart as { layer: [{ encoding: Record<'x' | 'y', { scale: { domain: [number, number] } }> }] }
  ).layer;
  return { x: encoding.x.scale.domain, y: encoding.y.scale.domain };
}

test('a line is joined to its own curve at its own pressure, and the bar carries its words', () => {
  const [suction, liquid] = sidesOf(saturationPoints(curve, options));
  expect(suction).toMatchObject({ p: 9.2, saturation: 5.85, line: 11.85, target: null, text: 'superheat 6.0 K' });
  expect(liquid).toMatchObject({ p: 25, saturation: 41.85, line: 36.85, text: 'subcooling 5.0 K' });
  // What was asked for lies as far from the curve, on the side of the line.
  expect(liquid?.['target']).toBeCloseTo(41.85 - 5.5, 3);
});

test('psig count from the air of the site, bar are absolute', () => {
  const at = (air: number) => {
    const chart = saturationPoints(curve, { ...options, atmospherePa: air, units: 'ip' });
    return sidesOf(chart)[0];
  };
  expect(at(101_325)?.['p']).toBeCloseTo((920_000 - 101_325) / 6894.757, 2);
  expect(at(84_000)?.['p']).toBeCloseTo((920_000 - 84_000) / 6894.757, 2);
  expect(at(84_000)).toMatchObject({ saturation: 42.53, text: 'superheat 10.8 °F' });
});

test('the curves are drawn as they were given', () => {
  const drawn = valuesOf(saturationPoints(curve, options) as TopLevelSpec, 'curve') as {
    t: number;
    dew: number;
    bubble: number;
  }[];
  expect(drawn).toHaveLength(curve.length);
  const [first] = drawn;
  expect(first?.t).toBeCloseTo(272 - 273.15, 3);
  expect(first?.dew).toBeCloseTo((curve[0]?.dewPa ?? 0) / 1e5, 3);
  expect(first?.bubble).toBeCloseTo((curve[0]?.bubblePa ?? 0) / 1e5, 3);
});

test('words run on from their point for nearly half of a narrow chart, on the side of one phase alone', () => {
  for (const side of ['suction', 'liquid'] as const) {
    const chart = saturationPoints(curve, { ...options, [side === 'suction' ? 'liquid' : 'suction']: null });
    const [{ edge, line }] = sidesOf(chart) as [{ edge: number; line: number }];
    expect(edge).toBe(line);
    const { x } = domainsOf(chart);
    const free = side === 'suction' ? x[1] - edge : edge - x[0];
    expect(free / (x[1] - x[0])).toBeGreaterThanOrEqual(0.449);
  }
});

test('on the wrong side of its curve a line has its words from the curve on, so that they do not cross it', () => {
  const flooded = { ...options.suction, gap: { ...superheat, k: -1, lineK: 278 } };
  expect(sidesOf(saturationPoints(curve, { ...options, suction: flooded }))[0]?.['edge']).toBe(5.85);
});

test('a target far off lies within the axes, too', () => {
  const { x } = domainsOf(saturationPoints(curve, { ...options, liquid: { ...options.liquid, targetK: 60 } }));
  expect(x[0]).toBeLessThan(41.85 - 60);
});

test('all that is drawn lies within the axes', () => {
  const { x, y } = domainsOf(saturationPoints(curve, options));
  for (const { temperatureK, dewPa, bubblePa } of curve) {
    expect(temperatureK - 273.15).toBeGreaterThanOrEqual(x[0] - 1e-9);
    expect(temperatureK - 273.15).toBeLessThanOrEqual(x[1] + 1e-9);
    expect(dewPa / 1e5).toBeGreaterThan(y[0]);
    expect(bubblePa / 1e5).toBeLessThan(y[1]);
  }
});

test('without a curve, or with nothing steady on either side, there is no chart', () => {
  expect(saturationPoints([], options)).toBeNull();
  expect(saturationPoints(curve, { ...options, suction: null, liquid: null })).toBeNull();
});
