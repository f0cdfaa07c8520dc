import { expect, test } from 'vitest';
import { notOpenedFacts } from '../../../src/facts/pressure-test/not-opened.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';

const job: Job = { job_id: 'J-1', started_at: '2026-06-01T08:00:00Z' };
const notOpened = { pressure_problem: 'not-opened' };

test('a circuit that stays shut is not pressure-tested: by its work, or as the record says', () => {
  expect(notOpenedFacts({}, { ...job, work_type: 'recharge' })).toEqual(notOpened);
  expect(notOpenedFacts({}, { ...job, work_type: 'install' })).toEqual({});
  expect(notOpenedFacts({}, job)).toEqual({});
  expect(notOpenedFacts({}, undefined)).toEqual({});
  expect(notOpenedFacts({}, { ...job, work_type: 'service', opened_circuit: true })).toEqual({});
  expect(notOpenedFacts({}, { ...job, work_type: 'repair', opened_circuit: false })).toEqual(notOpened);
});

test('what was evacuated was opened, unless the record says that it was not', () => {
  const measured = { vacuum_readings: 900 };
  expect(notOpenedFacts(measured, { ...job, work_type: 'service' })).toEqual({});
  expect(notOpenedFacts(measured, { ...job, work_type: 'service', opened_circuit: false })).toEqual(notOpened);
});

test('a test that was logged is one, whatever the work', () => {
  expect(notOpenedFacts({ pressure_readings: 900 }, { ...job, work_type: 'recharge' })).toEqual({});
});
