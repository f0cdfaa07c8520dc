import { describe, expect, test } from 'vitest';
import { measuredFacts } from '../../../src/facts/measured-facts.ts';
import { jobOf, runLog, saturationAt } from '../run-test/run-log.ts';
import { noRecord, pulled } from './recorded.ts';

const elapsedS = Float64Array.from({ length: 600 }, (_, index) => index * 2);
const vacuumOf = (unitPa: number) => [
  { gauge: null, elapsedS, vacuumPa: elapsedS.map((atS) => (atS < 20 ? 101_325 : pulled(atS)) / unitPa) },
];
const job = jobOf();
const restPa = saturationAt('R-410A', 25).bubblePa;

describe('what rests on a column in another unit is not judged', () => {
  test('a vacuum in Torr: its readings are counted, and that is all', () => {
    const facts = measuredFacts({ ...noRecord, job, series: vacuumOf(133.322368) });
    expect(facts).toMatchObject({ vacuum_readings: 600, vacuum_problem: 'other-unit', unit_likely: 'Torr' });
    expect(facts.deepest_pa).toBeUndefined();
    expect(facts.hold_s).toBeUndefined();
    const own = measuredFacts({ ...noRecord, job, series: vacuumOf(1) });
    expect(own.vacuum_problem).toBeUndefined();
    expect(own.deepest_pa).toBeCloseTo(4, 0);
  });

  test('a run beside it is judged as before', () => {
    const run = runLog({ restPa });
    const both = measuredFacts({ ...noRecord, job, run, series: vacuumOf(133.322368) });
    expect(both.superheat_k).toBeCloseTo(measuredFacts({ ...noRecord, job, run }).superheat_k ?? Number.NaN, 9);
  });

  test('power in kilowatts: pressures tell when it ran, and nothing is said of a compressor in a vacuum', () => {
    const run = runLog({ restPa, columns: { compressor_w: (sinceS) => (sinceS < 0 ? 0 : 2.04) } });
    const facts = measuredFacts({ ...noRecord, job, run });
    expect(facts).toMatchObject({ unit_column: 'compressor_w', run_s: 1800 });
    expect(facts.superheat_k).toBeDefined();
    expect(facts.compressor_readings).toBeUndefined();
    expect(facts.run_compressor_w).toBeUndefined();
  });

  test('air in degrees Fahrenheit: the run is counted and not judged', () => {
    const facts = measuredFacts({ ...noRecord, job, run: runLog({ restPa, columns: { outdoor_c: 86 } }) });
    expect(facts).toMatchObject({ run_problem: 'other-unit', unit_likely: '°F', run_readings: 385 });
    expect(facts.superheat_k).toBeUndefined();
  });

  test('pressures in psi taken for kilopascals: by the pressure at rest, which stays to be looked at', () => {
    const run = runLog({ restPa });
    const inPsi = (values: Float64Array | undefined) => values?.map((pa) => pa / 6.894757) ?? new Float64Array();
    const columns = {
      ...run.columns,
      suction_pa: inPsi(run.columns.suction_pa),
      liquid_pa: inPsi(run.columns.liquid_pa),
    };
    const facts = measuredFacts({ ...noRecord, job, run: { ...run, columns } });
    expect(facts).toMatchObject({ run_problem: 'other-unit', unit_sign: 'rest-factor', unit_likely: 'psi' });
    expect(facts.rest_pa).toBeCloseTo(restPa / 6.894757, 0);
    expect(facts.superheat_k).toBeUndefined();
  });

  test('readings beyond the use of any instrument are counted, a slip or two are not', () => {
    const withHot = (count: number) => {
      const run = runLog({ restPa });
      const values = run.columns.suction_line_c?.slice() ?? new Float64Array();
      values.fill(180, 100, 100 + count);
      return measuredFacts({ ...noRecord, job, run: { ...run, columns: { ...run.columns, suction_line_c: values } } });
    };
    expect(withHot(30)).toMatchObject({ range_column: 'suction_line_c', range_readings: 30, range_worst: 180 });
    expect(withHot(2).range_column).toBeUndefined();
  });
});
