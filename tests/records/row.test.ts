import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseCell } from '../../src/records/cell.ts';
import { rowParser } from '../../src/records/row.ts';
import { gauges } from '../../src/records/tables/gauges.ts';
import { inspections } from '../../src/records/tables/inspections.ts';
import { readings } from '../../src/records/tables/readings.ts';

describe('parseCell', () => {
  test('every finite double reads back from its shortest spelling, with spaces around it', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        fc.pre(!Object.is(value, -0));
        expect(parseCell('number', ` ${value} `)).toEqual({ value });
      }),
      { seed: 1 },
    );
  });

  test.each(['', '.', '+', '1e', '1_000', '+-5', '0x1F', '1,5', '1 000', 'NaN', 'Infinity', 'over', '5f', '١'])(
    '%j is no number',
    (text) => expect(parseCell('number', text)).toEqual({ problem: `not a number: ${JSON.stringify(text)}` }),
  );

  test('numbers beyond a double, NUL characters and long cells are told', () => {
    expect(parseCell('number', '1e400')).toEqual({ problem: 'number too large: "1e400"' });
    expect(parseCell('text', 'a\0b')).toEqual({ problem: 'holds a NUL character: "a\\u0000b"' });
    expect(parseCell('number', 'x'.repeat(99))).toEqual({ problem: `not a number: "${'x'.repeat(60)}…"` });
  });

  test('over stands for a number only where the column allows it', () => {
    expect(parseCell('number', ' over ', true)).toEqual({ value: 'over' });
    expect(parseCell('number', 'over')).toHaveProperty('problem');
  });
});

describe('rowParser', () => {
  test('ranges hold with their ends included', () => {
    const parse = rowParser(readings);
    const row = (vacuum_pa: unknown) => parse({ job_id: 'J', elapsed_s: '0', vacuum_pa });
    for (const sound of [0, '0', 200_000, '200000']) expect(row(sound)).toHaveProperty('row.vacuum_pa', Number(sound));
    for (const wrong of [-0.001, '200000.001', Number.NaN, Number.NEGATIVE_INFINITY])
      expect(row(wrong)).toMatchObject({ column: 'vacuum_pa' });
    // How Parquet and Arrow spell it.
    expect(row(Number.POSITIVE_INFINITY)).toHaveProperty('row.vacuum_pa', 'over');
    expect(parse({ job_id: 'J', elapsed_s: Number.POSITIVE_INFINITY })).toMatchObject({ column: 'elapsed_s' });
  });

  test('values of the wrong kind are named as they were', () => {
    const row = (vacuum_pa: unknown) => rowParser(readings)({ job_id: 'J', elapsed_s: 0, vacuum_pa });
    expect(row(Number.NaN)).toEqual({ column: 'vacuum_pa', problem: 'NaN is not from 0 to 200000 Pa' });
    expect(row(true)).toEqual({ column: 'vacuum_pa', problem: 'not a number: true' });
    expect(row({ pa: 5 })).toEqual({ column: 'vacuum_pa', problem: 'not a number: {"pa":5}' });
  });

  test('null, undefined, nothing and spaces mean "not known"', () => {
    for (const step_pa of [null, undefined, '', '  ']) {
      expect(rowParser(gauges)({ gauge_id: 'G', step_pa })).toEqual({ row: { gauge_id: 'G' } });
      expect(rowParser(gauges)({ gauge_id: step_pa })).toEqual({ column: 'gauge_id', problem: 'required, but empty' });
    }
  });

  test('typed values of other formats: numbers as keys, whole numbers of 64 bits, flags', () => {
    expect(rowParser(gauges)({ gauge_id: 17, range_max_pa: 5n })).toEqual({ row: { gauge_id: '17', range_max_pa: 5 } });
    const day = { system_id: 'S', inspected_on: '2026-01-02' };
    expect(rowParser(inspections)({ ...day, leak_found: false })).toEqual({ row: { ...day, leak_found: false } });
    expect(rowParser(inspections)({ ...day, leak_found: 1 })).toMatchObject({ column: 'leak_found' });
  });
});
