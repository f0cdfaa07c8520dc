import { parse, View } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { describe, expect, test } from 'vitest';
import { compileChart } from '../../src/charts/compile-chart.ts';
import { heldPressureTrace } from '../../src/charts/held-pressure-trace.ts';
import { pairedTrace } from '../../src/charts/paired-trace.ts';
import { planChart } from '../../src/charts/plan-chart.ts';
import { runTrace } from '../../src/charts/run-trace.ts';
import { saturationPoints } from '../../src/charts/saturation-points.ts';
import { scaleTrace } from '../../src/charts/scale-trace.ts';
import { riseReach, riseTrace } from '../../src/charts/rise-trace.ts';
import { isWithin } from '../../src/charts/vacuum-recording.ts';
import { sharedCurveTrace } from '../../src/charts/shared-curve-trace.ts';
import { standingTestTrace } from '../../src/charts/standing-test-trace.ts';
import { vacuumTrace } from '../../src/charts/vacuum-trace.ts';
import { runSample } from '../pages/run-sample.ts';
import { serviceManagerSample } from '../pages/service-manager-sample.ts';
import { weighInSample } from '../pages/weigh-in-sample.ts';
import { accountSpecimens } from './account-specimens.ts';
import { schemaErrors } from './schema-errors.ts';
import { valuesOf } from './values-of.ts';

const sample = serviceManagerSample();
const [job] = sample.lookAt;
if (!job?.trace) throw new Error('the sample has no trace');
const { trace, phases, limits, fitted, stall, valveOff } = job;
const { isolation } = job;
if (!isolation || !fitted) throw new Error('the sample has no fitted isolation');
const rise = { isolation, phases, limits, fitted, units: 'ip' } as const;
const none = { elapsedS: [], vacuumPa: [], over: [] };
const allOver = { elapsedS: [0, 10, 20], vacuumPa: [null, null, null], over: [true, true, true] };
const { pressureTest } = job;
if (!pressureTest) throw new Error('the sample has no pressure test');
const tested = { ...pressureTest, units: 'ip' } as const;
const unread = { elapsedS: [], testPa: [] };
const noHold = { ...tested, holds: [], judged: null, corrected: null, drop: null, limits: [] };
const unclamped = { ...tested, corrected: null, drop: null };
const long = {
  trace: { ...pressureTest.trace, elapsedS: pressureTest.trace.elapsedS.map((atS) => 20 * atS) },
  judged: { startS: 7800, settledS: 8100, endS: 79_800 },
};

const weighIn = weighInSample();
const { moves, flow } = weighIn;
const few = { elapsedS: [0, 2, 4], drawnKg: [0, 0, 0.001] };
const run = runSample();
const unjudged = { startS: null, steady: null, superheat: null, subcooling: null };
const unseen = run.trace.elapsedS.map(() => null);
const lineAlone = { ...run.trace, dewK: unseen, bubbleK: unseen, liquidLineK: unseen };

const curve = run.curve ?? [];
const { superheat, subcooling, means } = run;
if (superheat === null || subcooling === null || means === null) throw new Error('the sample has no steady run');
const suction = { pressurePa: 920_000, gap: superheat, targetK: means.targetSuperheatK };
const liquid = { pressurePa: 2_500_000, gap: subcooling, targetK: means.targetSubcoolingK };
const points = { suction, liquid, atmospherePa: run.atmospherePa };
const flooded = { ...suction, targetK: 8, gap: { ...superheat, k: -0.4, lineK: 278.6 } };

const seen = (kg: number) => [
  { durationS: 300, lowKgPerYear: kg, highKgPerYear: 30 * kg },
  { durationS: 86_400, lowKgPerYear: kg / 100, highKgPerYear: kg / 3 },
];
const planned = { pressureTest: seen(100), riseShown: seen(0.1), riseTold: seen(2) };

const sharedCurve = {
  otherJobId: 'job-2',
  isVacuum: true,
  elapsedS: [1200, 1202, 1204, 1206],
  ownPa: [40, 41, 39, 40.5],
  otherPa: [40, 41.1, 39, 40.4],
};

const paired = { elapsedS: trace.elapsedS, values: trace.vacuumPa };
const pairedGood = { elapsedS: [0, 60, 120, 20_000], values: [101_325, null, 40, 0] };
const pairedTests = { elapsedS: pressureTest.trace.elapsedS, values: pressureTest.trace.testPa };
const pairedGaps = { elapsedS: [0, 30, 60, 90], values: [null, -1, 5, 5.5] };

/** Every chart, on usual and on awkward rows. */
const specimens: [string, TopLevelSpec | null][] = [
  ...accountSpecimens,
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
  ['pressure test, psig', standingTestTrace(pressureTest.trace, tested)],
  ['pressure test, bar', standingTestTrace(pressureTest.trace, { ...tested, units: 'si' })],
  ['pressure test over a day', standingTestTrace(long.trace, { ...tested, judged: long.judged })],
  ['pressure test: no readings', standingTestTrace(unread, noHold)],
  ['held pressure, psi', heldPressureTrace(pressureTest.trace, tested)],
  [
    'held pressure, bar, with an allowance',
    heldPressureTrace(pressureTest.trace, { ...tested, allowedDropPa: 34_474, units: 'si' }),
  ],
  ['held pressure without a temperature', heldPressureTrace(pressureTest.trace, unclamped)],
  ['held pressure over a day', heldPressureTrace(long.trace, { ...unclamped, judged: long.judged })],
  ['plan, ounces and pounds', planChart(planned, { lossKgPerYear: null, units: 'ip' })],
  ['plan, grams, and a leak asked for', planChart(planned, { lossKgPerYear: 0.1, units: 'si' })],
  [
    'plan of one test, at one length',
    planChart({ pressureTest: [], riseShown: [], riseTold: seen(2).slice(0, 1) }, { lossKgPerYear: 9, units: 'ip' }),
  ],
  ['scale, ounces', scaleTrace(weighIn, { moves, flow, units: 'ip' })],
  ['scale, grams', scaleTrace(weighIn, { moves, flow, units: 'si' })],
  ['scale: nothing flowed', scaleTrace({ read: few, corrected: few }, { moves: [], flow: null, units: 'ip' })],
  ['run, °F', runTrace(run.trace, { ...run, units: 'ip' })],
  ['run, °C', runTrace(run.trace, { ...run, units: 'si' })],
  ['run that was not judged, one line alone', runTrace(lineAlone, { ...unjudged, units: 'ip' })],
  ['run on the saturation curve, psig', saturationPoints(curve, { ...points, units: 'ip' })],
  ['run on the saturation curve, bar', saturationPoints(curve, { ...points, units: 'si' })],
  ['run on the curve, no liquid side', saturationPoints(curve, { ...points, liquid: null, units: 'ip' })],
  ['run on the curve, no suction side', saturationPoints(curve, { ...points, suction: null, units: 'si' })],
  ['run on the curve, flooded', saturationPoints(curve, { ...points, suction: flooded, units: 'ip' })],
  ['shared curve, microns', sharedCurveTrace(sharedCurve, { units: 'ip' })],
  ['shared curve, pascals', sharedCurveTrace(sharedCurve, { units: 'si' })],
  ['shared pressure test, psi', sharedCurveTrace({ ...sharedCurve, isVacuum: false }, { units: 'ip' })],
  ['two vacuums, microns', pairedTrace(paired, pairedGood, { quantity: 'vacuum', units: 'ip' })],
  ['two vacuums, pascals', pairedTrace(paired, pairedGood, { quantity: 'vacuum', units: 'si' })],
  ['two pressure tests', pairedTrace(pairedTests, pairedTests, { quantity: 'pressure', units: 'ip' })],
  ['two runs', pairedTrace(pairedGaps, pairedGaps, { quantity: 'subcooling', units: 'si' })],
  ['rise with a leak that leaves the chart', riseTrace(trace, { ...rise, fitted: { ...fitted, leakHighPaPerS: 9 } })],
];

describe.each(specimens)('%s', (_, chart) => {
  test('is valid Vega-Lite, compiles without warnings and draws', async () => {
    expect(chart).not.toBeNull();
    expect(schemaErrors(chart)).toEqual([]);
    const { spec, warnings } = await compileChart(chart as TopLevelSpec);
    expect(warnings).toEqual([]);
    const svg = await new View(parse(spec), { renderer: 'none' }).toSVG();
    expect(svg).toContain('<svg');
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('the guards prove themselves', () => {
  test('a planted wrong mark is not valid', () => {
    expect(schemaErrors({ data: { values: [] }, mark: 'blot', encoding: {} })).not.toEqual([]);
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

  test('a reading where one phase ends and the next starts belongs to the next', () => {
    const broken = { phase: 'break', startS: 4790, endS: 4900 } as const;
    expect(isWithin(4790, isolation, [isolation])).toBe(true);
    expect(isWithin(4790, isolation, [isolation, broken])).toBe(false);
    expect(isWithin(4790, broken, [isolation, broken])).toBe(true);
    expect(isWithin(3899.9, isolation, [isolation])).toBe(false);
  });

  test('the bands of a plan are in ounces or grams, and the leak asked for is a line', () => {
    const chart = (units: 'ip' | 'si') => planChart(planned, { lossKgPerYear: 0.1, units }) as TopLevelSpec;
    expect(valuesOf(chart('si'), 'pressure-test')).toEqual([
      { t: 300, low: 100_000, high: 3_000_000 },
      { t: 86_400, low: 1000, high: 33_330 },
    ]);
    expect(valuesOf(chart('si'), 'asked')).toEqual([{ loss: 100 }]);
    // 16 oz a pound of 0.45359237 kg.
    expect(valuesOf(chart('ip'), 'asked')).toEqual([{ loss: 3.527 }]);
    expect(planChart({ pressureTest: [], riseShown: [], riseTold: [] }, { lossKgPerYear: 1, units: 'ip' })).toBeNull();
  });

  test('there is no rise chart without an isolation, nor of fewer than three readings, nor of nothing but 0', () => {
    const zeros = { ...allOver, vacuumPa: [0, 0, 0], over: [false, false, false] };
    const early = { ...isolation, startS: 0 };
    expect(riseTrace(trace, { ...rise, isolation: null })).toBeNull();
    expect(riseTrace(allOver, { ...rise, isolation: early, phases: [early] })).toBeNull();
    expect(riseTrace(zeros, { ...rise, isolation: early, phases: [early] })).toBeNull();
  });
});
