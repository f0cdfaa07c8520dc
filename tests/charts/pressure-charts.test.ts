import type { TopLevelSpec } from 'vega-lite';
import { expect, test } from 'vitest';
import { chartTime } from '../../src/charts/chart-time.ts';
import { heldPressureTrace } from '../../src/charts/held-pressure-trace.ts';
import { limitsAbove, standingTestTrace } from '../../src/charts/standing-test-trace.ts';
import { serviceManagerSample } from '../pages/service-manager-sample.ts';
import { valuesOf } from './values-of.ts';

const [job] = serviceManagerSample().lookAt;
if (!job?.pressureTest) throw new Error('the sample has no pressure test');
const { pressureTest } = job;
const tested = { ...pressureTest, units: 'ip' } as const;
const unclamped = { ...tested, corrected: null, drop: null };

test('a pressure test is as a gauge shows it, in psi or bar, its judged hold stronger, and far limits are left out', () => {
  const chart = (units: 'ip' | 'si') => standingTestTrace(pressureTest.trace, { ...tested, units });
  const first = (units: 'ip' | 'si') => (valuesOf(chart(units), 'readings') as { t: number; p: number }[])[0];
  expect(first('ip')).toEqual({ t: 0, p: 0 });
  expect(first('si')).toEqual({ t: 0, p: 0 });
  // 450 and 550 psi are 31.03 and 37.92 bar.
  expect((valuesOf(chart('si'), 'limits') as { p: number; text: string }[]).map(({ p }) => p)).toEqual([
    31.026, 37.921,
  ]);
  expect(JSON.stringify(valuesOf(chart('si'), 'limits'))).toContain('31.03 bar gauge');
  const rows = valuesOf(chart('ip'), 'readings') as { t: number; judged?: true }[];
  const judged = rows.filter((row) => row.judged).map(({ t }) => t);
  expect([judged[0], judged.at(-1)]).toEqual([6.5, 66.5]);
  expect(valuesOf(chart('ip'), 'holds')).toEqual([
    { from: 1, to: 6, name: 'hold' },
    { from: 6.5, to: 66.5, name: 'judged hold' },
  ]);
  expect(valuesOf(chart('ip'), 'limits')).toMatchObject([{ p: 450 }, { p: 550 }]);
  const far = { label: 'far', pa: 8e6 };
  const options = { ...tested, limits: [...tested.limits, far] };
  expect(limitsAbove(pressureTest.trace, options)).toEqual([far]);
  expect(valuesOf(standingTestTrace(pressureTest.trace, options), 'limits')).toHaveLength(2);
});

test('the held pressure counts from where a tight system starts, and the drop with its interval hangs below', () => {
  const chart = heldPressureTrace(pressureTest.trace, tested) as TopLevelSpec;
  expect(valuesOf(chart, 'wedge')).toEqual([
    { t: 5, low: 0, high: 0, p: 0 },
    { t: 60, low: -3.1, high: -0.9, p: -2 },
  ]);
  expect(valuesOf(chart, 'tight')).toEqual([{ from: 5, to: 60, p: 0 }]);
  expect(valuesOf(chart, 'settling')).toEqual([{ from: 0, to: 5 }]);
  const kept = valuesOf(chart, 'kept') as { t: number; p: number }[];
  expect([kept[0], kept.at(-1)]).toEqual([
    { t: 5, p: 0 },
    { t: 60, p: -2 },
  ]);
  // Means of 450 psig as read at 690 s, within the gauge's step.
  const read = valuesOf(chart, 'read') as { t: number; p: number }[];
  expect(Math.abs(read.find(({ t }) => t === 5)?.p ?? 9)).toBeLessThanOrEqual(1);
  expect(valuesOf(chart, 'allowed')).toEqual([]);
  const allowing = heldPressureTrace(pressureTest.trace, { ...tested, allowedDropPa: 34_474 }) as TopLevelSpec;
  expect(valuesOf(allowing, 'allowed')).toEqual([{ from: 5, to: 60, p: -5, text: 'allowed: 5.00 psi' }]);
});

test('without a temperature there are the readings alone, and without a hold there is no chart of it', () => {
  const chart = heldPressureTrace(pressureTest.trace, { ...unclamped, allowedDropPa: 34_474 }) as TopLevelSpec;
  for (const name of ['wedge', 'tight', 'kept', 'allowed']) expect([name, valuesOf(chart, name)]).toEqual([name, []]);
  expect((valuesOf(chart, 'read') as { t: number; p: number }[]).find(({ t }) => t === 5)?.p).toBe(0);
  expect(heldPressureTrace(pressureTest.trace, { ...tested, judged: null })).toBeNull();
  const brief = { startS: 390, settledS: 3980, endS: 3990 };
  expect(heldPressureTrace(pressureTest.trace, { ...tested, judged: brief })).toBeNull();
});

test('a long test is drawn over hours', () => {
  expect([chartTime(10_799).unit, chartTime(10_800).unit]).toEqual(['minutes', 'hours']);
  expect(chartTime(86_400).of(5400)).toBe(1.5);
  const trace = { ...pressureTest.trace, elapsedS: pressureTest.trace.elapsedS.map((atS) => 20 * atS) };
  const judged = { startS: 7800, settledS: 8100, endS: 79_800 };
  const ends = valuesOf(heldPressureTrace(trace, { ...unclamped, judged }) as TopLevelSpec, 'settling');
  expect(ends).toEqual([{ from: 0, to: 0.083 }]);
});
