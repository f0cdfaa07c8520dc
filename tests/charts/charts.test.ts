import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { parse, View } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { describe, expect, test } from 'vitest';
import { compileChart } from '../../src/charts/compile-chart.ts';
import { flaggedByMonth } from '../../src/charts/flagged-by-month.ts';
import { riseReach, riseTrace } from '../../src/charts/rise-trace.ts';
import { emptyCorner } from '../../src/charts/empty-corner.ts';
import { limitLines } from '../../src/charts/limit-lines.ts';
import { shareAxis } from '../../src/charts/share-axis.ts';
import { isWithin } from '../../src/charts/vacuum-recording.ts';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { vacuumTrace } from '../../src/charts/vacuum-trace.ts';
import { serviceManagerSample } from '../pages/service-manager-sample.ts';

const schemaPath = createRequire(import.meta.url).resolve('vega-lite/vega-lite-schema.json');
const validate = new Ajv({ strict: false, validateFormats: false }).compile(
  JSON.parse(readFileSync(schemaPath, 'utf8')),
);

const sample = serviceManagerSample();
const [job] = sample.lookAt;
if (!job?.trace) throw new Error('the sample has no trace');
const { trace, phases, limits, fitted, stall, valveOff } = job;
if (!job.isolation || !fitted) throw new Error('the sample has no fitted isolation');
const { isolation } = job;
const rise = { isolation, phases, limits, fitted, units: 'ip' } as const;
const months = [...new Set(sample.monthly.map(({ month }) => month))];
const birch = sample.monthly.filter(({ crewId }) => crewId === 'Birch');
const none = { elapsedS: [], vacuumPa: [], over: [] };
const allOver = { elapsedS: [0, 10, 20], vacuumPa: [null, null, null], over: [true, true, true] };

/** Every chart, on usual and on awkward rows. */
const specimens: [string, TopLevelSpec | null][] = [
  ['flagged by month', flaggedByMonth(birch, { months, everyone: birch, largestShare: 0.4 })],
  ['flagged by month: nothing judged', flaggedByMonth([], { months: ['2026-01'] })],
  ['flagged by month: no months', flaggedByMonth([], { months: [] })],
  ['technicians', technicianRates(sample.technicians, { fleetShare: 0.2 })],
  ['technicians: none judged', technicianRates([], { fleetShare: null })],
  ['vacuum, microns', vacuumTrace(trace, { phases, limits, units: 'ip' })],
  ['vacuum, pascals', vacuumTrace(trace, { phases, limits, units: 'si' })],
  [
    'vacuum with a stall and a valve-off that is not sharp',
    vacuumTrace(trace, { phases, limits, stall, valveOff, units: 'ip' }),
  ],
  ['vacuum: no readings', vacuumTrace(none, { phases: [], limits: [], units: 'ip' })],
  ['vacuum: all above the gauge', vacuumTrace(allOver, { phases, limits, units: 'ip' })],
  ['rise, microns', riseTrace(trace, rise)],
  ['rise, pascals', riseTrace(trace, { ...rise, limits: [], units: 'si' })],
  ['rise without a fit', riseTrace(trace, { ...rise, fitted: null })],
  ['rise with a leak that leaves the chart', riseTrace(trace, { ...rise, fitted: { ...fitted, leakHighPaPerS: 9 } })],
];

describe.each(specimens)('%s', (_, chart) => {
  test('is valid Vega-Lite, compiles without warnings and draws', async () => {
    expect(chart).not.toBeNull();
    validate(chart);
    expect(validate.errors).toBeNull();
    const { spec, warnings } = await compileChart(chart as TopLevelSpec);
    expect(warnings).toEqual([]);
    const svg = await new View(parse(spec), { renderer: 'none' }).toSVG();
    expect(svg).toContain('<svg');
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('the guards prove themselves', () => {
  test('a planted wrong mark is not valid', () => {
    expect(validate({ data: { values: [] }, mark: 'blot', encoding: {} })).toBe(false);
  });

  test('a planted unknown channel gives a warning', async () => {
    const planted = { data: { values: [] }, mark: 'point', encoding: { blot: { field: 'a', type: 'nominal' } } };
    const { warnings } = await compileChart(planted as unknown as TopLevelSpec);
    expect(warnings.join()).toContain('blot');
  });
});

describe('what the charts show', () => {
  test('the same rows give the same chart', () => {
    const twice = () => JSON.stringify(vacuumTrace(trace, { phases, limits, units: 'ip' }));
    expect(twice()).toBe(twice());
  });

  test('a month carries its share, interval and n; an empty one carries none', () => {
    const chart = flaggedByMonth([{ month: '2026-02', judged: 20, flagged: 4 }], { months: ['2026-01', '2026-02'] });
    const [january, february] = valuesOf(chart, 'months') as Record<string, number | null>[];
    expect(january).toMatchObject({ judged: 0, share: null, low: null });
    expect(february).toMatchObject({ judged: 20, share: 0.2 });
    // Newcombe 1998, method 3: 4 of 20 is 0.0807 to 0.4160
    expect(february?.['low']).toBeCloseTo(0.0807, 4);
    expect(february?.['high']).toBeCloseTo(0.416, 4);
  });

  test('technicians stand by name, and two of one name are told apart', () => {
    const rate = { judged: 3, flagged: 1, low: 0.1, high: 0.7 };
    const chart = technicianRates(
      [
        { technicianId: 't2', name: 'Rue', ...rate },
        { technicianId: 't1', name: 'Rue', ...rate },
        { technicianId: 't3', name: 'Ash', ...rate, judged: 0, flagged: 0 },
      ],
      { fleetShare: 1 / 3 },
    );
    const rows = valuesOf(chart, 'technicians') as { who: string; share: number | null; count: string }[];
    expect(rows.map(({ who }) => who)).toEqual(['Ash', 'Rue (t1)', 'Rue (t2)']);
    expect(rows[0]).toMatchObject({ share: null, count: 'none judged' });
    expect(rows[1]?.count).toBe('1 of 3');
  });

  test('one micron of mercury is 0.133322368 Pa on the axis in microns, and pascals stay pascals', () => {
    const one = { elapsedS: [0, 60], vacuumPa: [66.661184, 13.3322368], over: [false, false] };
    const options = { phases: [], limits: [] };
    const readings = (units: 'ip' | 'si') => valuesOf(vacuumTrace(one, { ...options, units }), 'readings');
    expect(readings('ip')).toEqual([
      { t: 0, p: 500 },
      { t: 1, p: 100 },
    ]);
    expect(readings('si')).toEqual([
      { t: 0, p: 66.66 },
      { t: 1, p: 13.33 },
    ]);
  });

  test('readings above the gauge are no pressure but a stretch along the top', () => {
    const chart = vacuumTrace(trace, { phases, limits, units: 'ip' });
    expect(valuesOf(chart, 'over')).toEqual([{ from: 0, to: 3.83 }]);
    expect((valuesOf(chart, 'readings') as { p: number | null }[])[0]?.p).toBeNull();
  });

  test('a stall and a valve-off that is not sharp are marked where there are such', () => {
    const marked = vacuumTrace(trace, { phases, limits, stall, valveOff, units: 'si' });
    expect(valuesOf(marked, 'stall')).toEqual([{ from: 11.67, to: 16.67, p: 900 }]);
    expect(valuesOf(marked, 'valve-off')).toEqual([{ from: 64.67, to: 65.5 }]);
    const plain = vacuumTrace(trace, { phases, limits, units: 'si' });
    expect([valuesOf(plain, 'stall'), valuesOf(plain, 'valve-off')]).toEqual([[], []]);
  });

  test('the rise chart starts at the isolation, and shows the limits of the rise that are near', () => {
    const far = { label: 'far', pa: 10_000, of: 'rise' } as const;
    const chart = riseTrace(trace, { ...rise, limits: [...limits, far] }) as TopLevelSpec;
    const rows = valuesOf(chart, 'readings') as { t: number }[];
    expect(rows[0]?.t).toBe(0);
    expect(rows).toHaveLength(90);
    expect(valuesOf(chart, 'limits')).toMatchObject([{ p: 1000, from: 0, until: 10, counts: true }]);
    expect(riseReach(trace, { ...rise, limits: [...limits, far] })?.limitsAbove).toEqual([far]);
  });

  test('a limit that counts soon after the end of the test makes the chart reach so far, one much later does not', () => {
    const countsAt = (countsAtS: number) => ({
      ...rise,
      limits: [{ label: 'limit', pa: 100, of: 'rise', countsAtS } as const],
    });
    expect(riseReach(trace, countsAt(1200))?.endS).toBe(1200);
    expect(riseReach(trace, countsAt(7200))?.endS).toBe(890);
    const late = riseTrace(trace, countsAt(7200)) as TopLevelSpec;
    expect(valuesOf(late, 'limits')).toMatchObject([{ until: 14.83, counts: false }]);
  });

  test('the steady part starts where the fitted rise does, and its edges end where they leave the chart', () => {
    const steep = { ...fitted, leakPaPerS: 0.1, leakLowPaPerS: 0.05, leakHighPaPerS: 1 };
    const chart = riseTrace(trace, { ...rise, units: 'si', fitted: steep }) as TopLevelSpec;
    const rows = valuesOf(chart, 'steady') as { t: number; p: number; low: number; high: number }[];
    const topPa = riseReach(trace, rise)?.topPa ?? 0;
    expect(rows.map(({ t }) => t)).toEqual([0, Math.round((topPa - 47) / 0.6) / 100, 14.83]);
    expect(rows[0]).toMatchObject({ p: 47, low: 47, high: 47 });
    // 47 Pa and 890 s of 0.1, 0.05 Pa/s.
    expect(rows[2]).toMatchObject({ p: 136, low: 91.5 });
    for (const { high } of rows) expect(high).toBeLessThanOrEqual(Number(topPa.toPrecision(4)));
    const [first] = valuesOf(chart, 'fitted') as { t: number; p: number }[];
    expect(first).toEqual({ t: 0, p: 47 });
  });

  test('the level that a rise heads for is a band where it is near, and left out where it is far above', () => {
    const chart = (pa: number, highPa: number | null) =>
      riseTrace(trace, {
        ...rise,
        units: 'si',
        fitted: { ...fitted, plateau: { pa, lowPa: 200, highPa } },
      }) as TopLevelSpec;
    expect(valuesOf(chart(250, 260), 'plateau')).toEqual([{ low: 200, high: 260 }]);
    // No upper end: up to the top of the chart, 1.12 times the level.
    expect(valuesOf(chart(250, null), 'plateau')).toEqual([{ low: 200, high: 280 }]);
    expect(valuesOf(chart(9000, 9900), 'plateau')).toEqual([]);
  });

  test('words of a line stand where curves are not', () => {
    const falling = [
      { across: 0, heightPx: 200 },
      { across: 0.2, heightPx: 20 },
      { across: 0.9, heightPx: 15 },
    ];
    expect(emptyCorner([falling], 60)).toEqual({ side: 'right', isAbove: true });
    expect(emptyCorner([falling], 220)).toEqual({ side: 'left', isAbove: true });
    const above = [
      { across: 0, heightPx: 70 },
      { across: 1, heightPx: 70 },
    ];
    expect(emptyCorner([above], 60)).toEqual({ side: 'left', isAbove: false });
    // Below a line at the very bottom is the axis.
    expect(emptyCorner([above.map((place) => ({ ...place, heightPx: 12 }))], 10).isAbove).toBe(true);
    const broken = [
      { across: 0, heightPx: 200 },
      { across: 0.1, heightPx: null },
      { across: 0.2, heightPx: 20 },
    ];
    expect(emptyCorner([broken], 60)).toEqual({ side: 'left', isAbove: true });
  });

  test('close limits have their words on both sides, equal ones share a line', () => {
    const limit = (label: string, pa: number) => ({ label, pa });
    const options = { pressureText: (pa: number) => `${pa} Pa`, heightPx: (pa: number) => pa } as const;
    const three = [limit('c', 120), limit('a', 100), limit('b', 110), limit('a too', 100), limit('far', 200)];
    expect(limitLines(three, { ...options, alone: () => 'above' })).toEqual([
      { pa: 100, text: 'a, a too: 100 Pa', offsetPx: 9 },
      { pa: 110, text: '', offsetPx: -8 },
      { pa: 120, text: 'b: 110 Pa · c: 120 Pa', offsetPx: -8 },
      { pa: 200, text: 'far: 200 Pa', offsetPx: -8 },
    ]);
    expect(limitLines([limit('a', 1)], { ...options, alone: () => 'below' })[0]?.offsetPx).toBe(9);
  });

  test('a reading where one phase ends and the next starts belongs to the next', () => {
    const broken = { phase: 'break', startS: 4790, endS: 4900 } as const;
    expect(isWithin(4790, isolation, [isolation])).toBe(true);
    expect(isWithin(4790, isolation, [isolation, broken])).toBe(false);
    expect(isWithin(4790, broken, [isolation, broken])).toBe(true);
    expect(isWithin(3899.9, isolation, [isolation])).toBe(false);
  });

  test('an axis of shares ends at the next quarter', () => {
    expect(shareAxis(0.61)).toEqual({ domain: [0, 0.75], values: [0, 0.25, 0.5, 0.75] });
    expect(shareAxis(0.25).domain).toEqual([0, 0.25]);
    expect(shareAxis(0).domain).toEqual([0, 0.25]);
    expect(shareAxis(1).domain).toEqual([0, 1]);
  });

  test('there is no rise chart without an isolation, nor of fewer than three readings, nor of nothing but 0', () => {
    const zeros = { ...allOver, vacuumPa: [0, 0, 0], over: [false, false, false] };
    const early = { ...isolation, startS: 0 };
    expect(riseTrace(trace, { ...rise, isolation: null })).toBeNull();
    expect(riseTrace(allOver, { ...rise, isolation: early, phases: [early] })).toBeNull();
    expect(riseTrace(zeros, { ...rise, isolation: early, phases: [early] })).toBeNull();
  });
});

/** The rows of a named data set of a chart. */
function valuesOf(chart: TopLevelSpec, name: string): unknown {
  const { data, layer } = chart as { data?: Named; layer: { data?: Named }[] };
  return [data, ...layer.map((part) => part.data)].find((each) => each?.name === name && each.values)?.values;
}

interface Named {
  name: string;
  values?: unknown[];
}
