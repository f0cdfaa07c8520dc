import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { recordsSchema } from '../../src/records/records-schema.ts';
import { inputTables, outputTables } from '../../src/records/tables.ts';

const tables = [...inputTables, ...outputTables];
// Formats are left to the patterns beside them: this validator knows none of its own.
const ajv = new Ajv2020({ validateFormats: false, allErrors: true });
ajv.addSchema(recordsSchema(tables), 'records');

/** Where an independent validator finds a row of a table at fault; empty where it finds none. */
function faults(table: string, row: object): string[] {
  const validate = ajv.getSchema(`records#/$defs/${table}`);
  if (validate === undefined) throw new Error(`no definition for ${table}`);
  if (validate(row) === true) return [];
  return (validate.errors ?? []).map(({ instancePath, keyword }) => `${instancePath} ${keyword}`.trim());
}

const job = { job_id: 'J-1', started_at: '2026-03-02T08:00:00-05:00' };

describe('the JSON Schema, asked by a validator that does not know the tables,', () => {
  test('takes sound rows', () => {
    expect(faults('jobs', job)).toEqual([]);
    expect(faults('jobs', { ...job, rise_limit_kind: 'level', altitude_m: -430 })).toEqual([]);
    expect(faults('readings', { job_id: 'J-1', elapsed_s: 0, vacuum_pa: 'over' })).toEqual([]);
  });

  test.each([
    ['a missing column', 'jobs', { job_id: 'J-1' }, 'required'],
    ['a column that the table does not have', 'jobs', { ...job, colour: 'blue' }, 'additionalProperties'],
    ['a word that is not a choice', 'jobs', { ...job, rise_limit_kind: 'slope' }, '/rise_limit_kind enum'],
    ['a number out of its range', 'jobs', { ...job, altitude_m: -431 }, '/altitude_m minimum'],
    ['a time without an offset', 'jobs', { ...job, started_at: '2026-03-02T08:00:00' }, '/started_at pattern'],
    ['text for a number', 'jobs', { ...job, altitude_m: '12' }, '/altitude_m type'],
  ])('refuses %s', (_, table, row, fault) => {
    expect(faults(table, row)).toEqual([fault]);
  });

  test('takes a whole bundle as one object, and refuses a table it does not know', () => {
    const validate = ajv.getSchema('records');
    expect(validate?.({ jobs: [job], people: [{ technician_id: 'T-1' }] })).toBe(true);
    expect(validate?.({ jobs: [{}] })).toBe(false);
    expect(validate?.({ invoices: [] })).toBe(false);
  });

  test('agrees with the tables on which columns are required', () => {
    for (const table of tables) {
      const { $defs } = recordsSchema([table]) as { $defs: Record<string, { required?: string[] }> };
      const required = $defs[table.name].required ?? [];
      expect(faults(table.name, {})).toEqual(required.map(() => 'required'));
      expect(table.schema.safeParse({}).error?.issues.map(({ path }) => path[0])).toEqual(required);
    }
  });
});
