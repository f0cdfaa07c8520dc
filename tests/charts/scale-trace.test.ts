import type { TopLevelSpec } from 'vega-lite';
import { expect, test } from 'vitest';
import { scaleReach, scaleTrace } from '../../src/charts/scale-trace.ts';
import { weighInSample } from '../pages/weigh-in-sample.ts';
import { valuesOf } from './values-of.ts';

const weighIn = weighInSample();
const { moves, flow } = weighIn;
if (flow === null) throw new Error('the sample has no flow');
const chart = (units: 'ip' | 'si') => scaleTrace(weighIn, { moves, flow, units }) as TopLevelSpec;
const scaled = (times: number) => ({
  read: weighIn.read,
  corrected: { ...weighIn.corrected, drawnKg: weighIn.corrected.drawnKg.map((kg) => times * kg) },
});

test('the mass counts from 0, in ounces or grams, from a pound or a kilogram on in those', () => {
  // 0.3 kg is 10.582 oz of 28.349523125 g.
  expect(valuesOf(chart('ip'), 'flow')).toMatchObject([{ from: 1, to: 3, low: 0, p: 10.582 }]);
  expect(valuesOf(chart('si'), 'flow')).toMatchObject([{ p: 300 }]);
  const unitOf = (times: number, units: 'ip' | 'si') =>
    scaleReach(scaled(times), { flow: { ...flow, kg: times * flow.kg }, units })?.unit;
  expect([unitOf(1.5, 'ip'), unitOf(1.6, 'ip')]).toEqual(['oz', 'lb']);
  expect([unitOf(3.3, 'si'), unitOf(3.4, 'si')]).toEqual(['g', 'kg']);
});

test('zeroing a cylinder of ten kilograms leaves the chart, and the charge fills it', () => {
  const reach = scaleReach(weighIn, { flow, units: 'si' });
  expect(reach?.leaves).toBe(true);
  expect(reach?.lowKg).toBeCloseTo(-0.06, 6);
  expect(reach?.highKg).toBeCloseTo(0.33, 6);
  expect(scaleReach({ ...weighIn, read: weighIn.corrected }, { flow, units: 'si' })?.leaves).toBe(false);
});

test('stands lie along the levels, moves that were taken out apart from those that count as flow', () => {
  expect(valuesOf(chart('si'), 'stands')).toEqual([
    { from: 0, to: 1, p: 0, offsetPx: 7 },
    { from: 3, to: 4, p: 300, offsetPx: -7 },
  ]);
  expect(valuesOf(chart('si'), 'moves')).toEqual([
    { from: 0.63, to: 0.67 },
    { from: 1.67, to: 1.83 },
  ]);
  expect(valuesOf(chart('si'), 'doubtful')).toEqual([{ from: 2.97, to: 3 }]);
});

test('readings are drawn as read only where something was taken out of them', () => {
  expect(valuesOf(chart('si'), 'read')).toHaveLength(121);
  const unmoved = scaleTrace(weighIn, { moves: [], flow, units: 'si' }) as TopLevelSpec;
  expect(valuesOf(unmoved, 'read')).toEqual([]);
});

test('the mass stands where the curve is not: at the right, at the left where it rises late', () => {
  const sideOf = (elapsedS: number[]) =>
    valuesOf(
      scaleTrace(
        { ...weighIn, corrected: { ...weighIn.corrected, elapsedS } },
        { moves, flow, units: 'si' },
      ) as TopLevelSpec,
      'flow',
    );
  expect(sideOf([...weighIn.corrected.elapsedS])).toMatchObject([{ side: 'right' }]);
  expect(sideOf(weighIn.corrected.elapsedS.map((t) => Math.min(240, t + 120)))).toMatchObject([{ side: 'left' }]);
});

test('fewer than three readings give no chart, and without a flow there is neither level nor stand', () => {
  const two = { elapsedS: [0, 2], drawnKg: [0, 0] };
  expect(scaleTrace({ read: two, corrected: two }, { moves: [], flow: null, units: 'ip' })).toBeNull();
  const still = scaleTrace(weighIn, { moves, flow: null, units: 'ip' }) as TopLevelSpec;
  for (const name of ['flow', 'levels', 'stands']) expect([name, valuesOf(still, name)]).toEqual([name, []]);
});
