import { describe, expect, test } from 'vitest';
import { otherUnits } from '../../../src/facts/recording/other-unit.ts';
import { restUnit } from '../../../src/facts/recording/pressure-unit.ts';
import { scannedSeries } from '../../../src/facts/recording/scanned-series.ts';
import type { ScannedSeries } from '../../../src/facts/recording/scanned-series.ts';
import type { MeasuredMaterial } from '../../../src/facts/job-material.ts';
import type { RecordedColumn } from '../../../src/records/recording-columns.ts';
import { runLog, saturationAt } from '../run-test/run-log.ts';
import { noisy, noRecord, pulled, recorded } from './recorded.ts';

const micronPa = 0.133322368;
const found = (all: readonly ScannedSeries[], material: Partial<MeasuredMaterial> = {}) =>
  otherUnits(all, { ...noRecord, ...material });
const gauge = { gauge_id: 'g', kind: 'thermal', step_pa: micronPa, range_max_pa: 20_000 * micronPa } as const;

/** A vacuum from the air on, as a gauge of wide range shows it in a unit. */
const fromAir = (unitPa: number, airPa = 101_325) =>
  recorded('vacuum_pa', (atS) => (atS < 20 ? airPa : pulled(atS)) / unitPa);
/** A vacuum by a gauge for microns, over above 20 000 µm, as numbers of another unit. */
const ofMicrons = (unitPa: number) =>
  recorded('vacuum_pa', (atS) => {
    const microns = Math.round((atS < 30 ? 1e5 : 4 + 3000 * Math.exp(-(atS - 30) / 60)) / micronPa);
    return microns > 20_000 ? Number.POSITIVE_INFINITY : (microns * micronPa) / unitPa;
  });

describe('the unit of a vacuum', () => {
  test.each([
    ['mbar', 100],
    ['Torr', 133.322368],
    ['kPa', 1000],
    ['inHg absolute', 3386.388640341],
    ['psia', 6894.757293168],
  ])('a log that begins at the air in %s', (likely, unitPa) => {
    const [one] = found([fromAir(unitPa)], { job: { barometer_pa: 101_325 } });
    expect(one).toMatchObject({ column: 'vacuum_pa', sign: 'begins-at-air', likely, isSure: true });
    expect(one.factor).toBeCloseTo(unitPa, 3);
  });

  test('where the height is not known, mbar of high places and Torr of low ones are both named', () => {
    const [one] = found([fromAir(133.322368)]);
    expect(one).toMatchObject({ likely: 'Torr', also: 'mbar', isSure: false });
  });

  test('pascals from the air on, and a log that was cut while it passed 760 Pa, are what they say', () => {
    expect(found([fromAir(1)])).toEqual([]);
    expect(found([recorded('vacuum_pa', (atS) => 4 + 756 * Math.exp(-atS / 90))])).toEqual([]);
  });

  test('by step and range of the gauge on record', () => {
    expect(found([ofMicrons(micronPa)], { gauge })[0]).toMatchObject({
      sign: 'gauge-on-record',
      likely: 'microns',
      isSure: true,
    });
    expect(found([ofMicrons(133.322368)], { gauge })[0]).toMatchObject({ sign: 'gauge-on-record', likely: 'Torr' });
    expect(found([ofMicrons(1)], { gauge })).toEqual([]);
  });

  test('without it by where the gauge goes over, and no more than suspect', () => {
    expect(found([ofMicrons(micronPa)])[0]).toMatchObject({ sign: 'over-limit', likely: 'microns', isSure: false });
    expect(found([ofMicrons(100)])[0]).toMatchObject({ sign: 'over-limit', isSure: false });
    expect(found([ofMicrons(1)])).toEqual([]);
  });

  test('a gap that hides the pull tells of no range', () => {
    const hidden = recorded(
      'vacuum_pa',
      (atS) => (atS < 66 ? Number.POSITIVE_INFINITY : 30 + 7 * Math.exp(-(atS - 110) / 20)),
      {
        atS: (index) => (index < 33 ? index * 2 : index * 2 + 44),
      },
    );
    expect(found([hidden])).toEqual([]);
  });

  test('deeper than any pump pulls', () => {
    const deep = recorded('vacuum_pa', (atS) => (4 + 200 * Math.exp(-atS / 90)) / 100);
    expect(found([deep])[0]).toMatchObject({ sign: 'too-deep', isSure: false });
  });
});

describe('the unit of a pressure test', () => {
  const filled = (shown: (pa: number) => number) =>
    recorded('test_pressure_pa', (atS) => shown(101_325 + (atS < 30 || atS > 700 ? 0 : 3e6)), {
      everyS: 5,
      readings: 200,
    });

  test.each([
    ['psi', 6894.757293168],
    ['bar', 1e5],
    ['kPa', 1000],
    ['MPa', 1e6],
  ])('numbers of a test in %s', (likely, unitPa) => {
    expect(found([filled((pa) => pa / unitPa)])[0]).toMatchObject({ sign: 'too-low', likely, isSure: true });
  });

  test('a gauge pressure shows nothing once the nitrogen is let off; an absolute one the air', () => {
    expect(found([filled((pa) => pa - 101_325)])[0]).toMatchObject({ sign: 'vented', likely: 'gauge pressure' });
    expect(found([filled((pa) => pa)])).toEqual([]);
  });
});

describe('the pressure at rest', () => {
  const at20 = saturationAt('R-134a', 20).bubblePa;
  const rested = (restPa: number) => ({
    rest_pa: restPa,
    rest_expected_pa: at20,
    rest_deviation: (restPa - at20) / 20_000,
    atmosphere_pa: 101_325,
  });

  test('too low by the air is a gauge pressure, a seventh of it is psi in a column of kilopascals', () => {
    expect(restUnit(rested(at20 - 101_325))).toMatchObject({ sign: 'rest-gauge', isSure: false });
    expect(restUnit(rested(at20 / 6.894757))).toMatchObject({ sign: 'rest-factor', likely: 'psi', said: 'kPa' });
    expect(restUnit(rested(at20 + 5000))).toBeUndefined();
    expect(restUnit(rested(at20 / 2))).toBeUndefined();
  });

  test('another refrigerant that fits is named as well', () => {
    expect(restUnit({ ...rested(at20 - 101_325), likely_refrigerant: 'R-1234yf' })?.also).toContain('R-1234yf');
  });
});

describe('the units of temperatures, power and times', () => {
  const runOf = (log: Parameters<typeof runLog>[0]) => {
    const run = runLog(log);
    const all = Object.entries(run.columns).map(([column, values]) =>
      scannedSeries({ column: column as RecordedColumn, elapsedS: run.elapsedS, values }),
    );
    return found(all, { run, job: { refrigerant: 'R-410A' } });
  };
  const atRest = (restC: number, runC: number) => (sinceS: number) => (sinceS < 0 ? restC : runC);
  const lines = { suction_line_c: atRest(27, 12), liquid_line_c: atRest(28, 34) };
  const restPa = saturationAt('R-410A', 25).bubblePa;

  test('a run in its own units', () => {
    expect(runOf({ restPa, columns: lines })).toEqual([]);
  });

  test('air of 86 °C is 86 °F', () => {
    expect(runOf({ restPa, columns: { ...lines, outdoor_c: 86 } })[0]).toMatchObject({
      column: 'outdoor_c',
      sign: 'too-warm',
    });
  });

  test('a line at rest far from the air on both ends, and just among them in degrees Fahrenheit', () => {
    const fahrenheit = { ...lines, suction_line_c: atRest(81, 54) };
    expect(runOf({ restPa, columns: fahrenheit })[0]).toMatchObject({
      column: 'suction_line_c',
      sign: 'air-and-line',
      likely: '°F',
    });
    // In the sun it is warm and no other unit.
    expect(runOf({ restPa, columns: { ...lines, suction_line_c: atRest(50, 12) } })).toEqual([]);
  });

  test('a winter day outdoors and a warm room are no two units', () => {
    const winter = {
      suction_line_c: atRest(-6, 30),
      liquid_line_c: atRest(-5, 28),
      outdoor_c: -8,
      indoor_c: 19,
      return_c: undefined,
    };
    expect(runOf({ restPa, columns: winter })).toEqual([]);
  });

  test('two watts while both pressures tell a run', () => {
    const power = (sinceS: number) => (sinceS < 0 ? 0 : 2.04);
    expect(runOf({ restPa, columns: { ...lines, compressor_w: power } })[0]).toMatchObject({
      column: 'compressor_w',
      likely: 'kW',
    });
    expect(runOf({ restPa, columns: { ...lines, compressor_w: () => 0 } })).toEqual([]);
  });

  test('a test, a vacuum and a rise within a minute are minutes', () => {
    const job = (perS: number) => [
      recorded('test_pressure_pa', (atS) => (atS / perS < 60 ? 101_325 : 3e6), { everyS: 10 * perS, readings: 120 }),
      recorded('vacuum_pa', (atS) => pulled(atS / perS), { everyS: 2 * perS, readings: 900 }),
    ];
    expect(found(job(1 / 60))[0]).toMatchObject({ column: 'elapsed_s', likely: 'min', factor: 60, isSure: true });
    expect(found(job(1))).toEqual([]);
    expect(found(job(1000))[0]).toMatchObject({ likely: 'ms', isSure: false });
  });

  test('one laboratory pull, read five times a second, is not', () => {
    const quick = recorded(
      'vacuum_pa',
      noisy((atS) => 5 + 900 * Math.exp(-atS / 30), { ratio: 0.01 }),
      { everyS: 0.2, readings: 1500 },
    );
    expect(found([quick])).toEqual([]);
  });
});
