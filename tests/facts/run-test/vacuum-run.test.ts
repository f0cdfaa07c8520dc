import { describe, expect, test } from 'vitest';
import { vacuumRunFacts } from '../../../src/facts/run-test/vacuum-run.ts';
import { type RunLog, runLog } from './run-log.ts';

const seaPa = 101_325;
// 1609 m: ISO 2533.
const denverPa = 83_400;
const found = (log: RunLog, airPa = seaPa) => vacuumRunFacts(runLog({ restS: 60, runS: 600, ...log }), airPa);
const during = (fromS: number, toS: number, inside: number, outside: number) => (s: number) =>
  s >= fromS && s < toS ? inside : outside;

describe('a compressor that ran in a vacuum', () => {
  test('by the suction gauge', () => {
    const facts = found({ columns: { suction_pa: during(100, 160, 40_000, 9e5) } });
    expect(facts).toMatchObject({ vacuum_run_s: 55, vacuum_run_pa: 40_000 });
    expect(facts.compressor_readings).toBe(133);
  });

  test('not by less than an unrecorded gauge is good for', () => {
    // 3.5 psi.
    const columns = { suction_pa: during(100, 160, 80_000, 9e5) };
    expect(found({ columns }).vacuum_run_s).toBe(0);
  });

  test('nothing is told where no pressure stands beside the power', () => {
    expect(found({ columns: { suction_pa: undefined } })).toEqual({});
  });

  test('not while it stood', () => {
    expect(found({ columns: { suction_pa: during(-60, -5, 200, 9e5) } })).toMatchObject({ vacuum_run_s: 0 });
    expect(found({ columns: { suction_pa: 200, compressor_w: 20 } })).toMatchObject({ vacuum_run_s: 0 });
  });

  test('below the air of its site: the same pressure is none high up', () => {
    const columns = { suction_pa: during(100, 160, 75_000, 9e5) };
    expect(found({ columns }).vacuum_run_s).toBe(55);
    expect(found({ columns }, denverPa)).toMatchObject({ vacuum_run_s: 0 });
    expect(found({ columns: { suction_pa: during(100, 160, 55_000, 9e5) } }, denverPa).vacuum_run_s).toBe(55);
  });

  test('by the vacuum gauge where no suction was read', () => {
    const log = { columns: { suction_pa: undefined }, vacuumPa: during(0, 90, 267, 20_000_000) };
    expect(found(log)).toMatchObject({ vacuum_run_s: 85, vacuum_run_pa: 267 });
  });

  test('not by a vacuum gauge that shows over range', () => {
    const log = { columns: { suction_pa: undefined }, vacuumPa: () => Number.POSITIVE_INFINITY };
    expect(found(log)).toMatchObject({ vacuum_run_s: 0 });
  });

  test('not by a vacuum gauge that was shut off under vacuum, where the suction gauge shows pressure', () => {
    const suction = (s: number) => (s % 15 === 0 ? 9e5 : Number.NaN);
    const gauge = (s: number) => (s % 15 === 0 ? Number.NaN : 40);
    expect(found({ columns: { suction_pa: suction }, vacuumPa: gauge })).toMatchObject({ vacuum_run_s: 0 });
  });

  test('not for one reading', () => {
    const facts = found({ columns: { suction_pa: during(100, 105, 0, 9e5) } });
    expect(facts.vacuum_run_s).toBe(0);
    expect(facts).not.toHaveProperty('vacuum_run_pa');
  });

  test('in a log by the minute', () => {
    const columns = { suction_pa: during(60, 400, 40_000, 9e5) };
    expect(found({ intervalS: 60, columns }).vacuum_run_s).toBe(300);
  });

  test('power and pressure on rows of their own', () => {
    const columns = {
      suction_pa: (s: number) => (s % 10 === 0 ? during(100, 160, 40_000, 9e5)(s) : Number.NaN),
      compressor_w: (s: number) => (s % 10 === 0 ? Number.NaN : 2000),
    };
    expect(found({ columns }).vacuum_run_s).toBe(50);
  });

  test('nothing is said where no power was read', () => {
    expect(found({ columns: { compressor_w: undefined } })).toEqual({});
    expect(found({ columns: { compressor_w: Number.NaN } })).toEqual({});
    expect(vacuumRunFacts(undefined, seaPa)).toEqual({});
  });

  test('a pressure from long before does not stand for now', () => {
    const columns = { suction_pa: (s: number) => (s < 0 ? 200 : Number.NaN) };
    expect(found({ columns }).vacuum_run_s).toBeLessThanOrEqual(10);
  });
});
