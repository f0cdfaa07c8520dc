import { describe, expect, test } from 'vitest';
import { chargeFacts } from '../../../src/facts/charge/charge-facts.ts';
import type { JobRecords } from '../../../src/facts/job-material.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import type { LineSet } from '../../../src/records/tables/line-sets.ts';
import type { Weighing } from '../../../src/records/tables/weighings.ts';

const started_at = '2026-03-05T14:30:00+01:00';

function material(
  job: Partial<Job>,
  lineSets: Omit<LineSet, 'job_id' | 'line_set_id'>[] = [],
  weighings: Partial<Weighing>[] = [],
): JobRecords {
  return Object.freeze({
    jobId: 'j1',
    job: Object.freeze({ job_id: 'j1', started_at, ...job }),
    lineSets: lineSets.map((line, index) => ({ job_id: 'j1', line_set_id: String(index + 1), ...line })),
    weighings: weighings.map((weighing, index) => ({ weighing_id: String(index + 1), ...weighing })),
  });
}

/** A new unit: 1.100 kg, 7.5 m covered, 0.020 kg/m beyond. */
const unit: Partial<Job> = {
  work_type: 'install',
  factory_charge_kg: 1.1,
  factory_line_m: 7.5,
  line_adder_kg_per_m: 0.02,
  charge_basis: 'pre-charged',
};

// Every sum below is worked out by hand: target = factory + Σ max(0, length − covered) × adder + other adders.
describe('the target', () => {
  test.each([
    ['15.5 m of one line: 1.1 + 8 × 0.02', { ...unit, line_length_m: 15.5 }, [], 1.26],
    ['a line just covered', { ...unit, line_length_m: 7.5 }, [], 1.1],
    ['a line shorter than covered takes nothing off', { ...unit, line_length_m: 4 }, [], 1.1],
    ['a short line needs no adder', { ...unit, line_length_m: 4, line_adder_kg_per_m: undefined }, [], 1.1],
    ['another adder: + 0.15', { ...unit, line_length_m: 15.5, other_adder_kg: 0.15 }, [], 1.41],
    ['another deduction: − 0.05', { ...unit, line_length_m: 15.5, other_adder_kg: -0.05 }, [], 1.21],
    [
      'the maker deducts per metre: 1.1 − 8 × 0.01',
      { ...unit, line_length_m: 15.5, line_adder_kg_per_m: -0.01 },
      [],
      1.02,
    ],
    [
      'three line sets: 1.1 + 2 × 0.02 + 0 + 5 × 0.03; the line of the job itself does not count again',
      { ...unit, line_length_m: 99 },
      [
        { line_length_m: 9.5, factory_line_m: 7.5, line_adder_kg_per_m: 0.02 },
        { line_length_m: 5, factory_line_m: 7.5, line_adder_kg_per_m: 0.02 },
        { line_length_m: 12.5, factory_line_m: 7.5, line_adder_kg_per_m: 0.03 },
      ],
      1.29,
    ],
  ] as const)('%s', (_, job, lineSets, kg) => {
    expect(chargeFacts(material(job, [...lineSets])).charge_target_kg).toBeCloseTo(kg, 12);
  });
});

describe('what went in', () => {
  test.each([
    ['the record, less the hose residual', { weighed_in_kg: 0.2, hose_residual_kg: 0.04 }, [], 0.16, 0.04],
    ['the record, no residual known', { weighed_in_kg: 0.2 }, [], 0.2, undefined],
    [
      'all weighings in, each less its residual: (9.0 − 8.8 − 0.01) + (8.8 − 8.75 − 0.02)',
      {},
      [
        { direction: 'in', start_kg: 9, end_kg: 8.8, hose_residual_kg: 0.01 },
        { direction: 'in', start_kg: 8.8, end_kg: 8.75, hose_residual_kg: 0.02 },
      ],
      0.22,
      0.03,
    ],
    [
      'what was recovered first is not taken off: it was in there before',
      {},
      [
        { direction: 'out', start_kg: 5, end_kg: 5.7 },
        { direction: 'in', start_kg: 9, end_kg: 8.2 },
      ],
      0.8,
      undefined,
    ],
    [
      'a trim let out again after the run test is: (9.0 − 8.0) − (5.15 − 5.0), whatever the order of the rows',
      {},
      [
        { direction: 'out', start_kg: 5, end_kg: 5.15, at: '2026-03-05T16:00:00+01:00' },
        { direction: 'in', start_kg: 9, end_kg: 8, at: '2026-03-05T15:00:00+01:00' },
      ],
      0.85,
      undefined,
    ],
    [
      'recovered after a first charge is not a trim',
      {},
      [
        { direction: 'in', start_kg: 9, end_kg: 8.9 },
        { direction: 'out', start_kg: 5, end_kg: 5.1, purpose: 'recovery' },
      ],
      0.1,
      undefined,
    ],
    ['a weighing without its end does not count', {}, [{ direction: 'in', start_kg: 9 }], undefined, undefined],
  ] as const)('%s', (_, job, weighings, kg, residualKg) => {
    const facts = chargeFacts(material({ ...unit, line_length_m: 15.5, ...job }, [], [...weighings]));
    if (kg === undefined) expect(facts).toMatchObject({ charge_problem: 'no-weigh-in' });
    else expect(facts.charged_kg).toBeCloseTo(kg, 12);
    // Of hoses of which nothing is on record nothing is taken off.
    if (kg !== undefined) expect(facts.hose_residual_kg).toBeCloseTo(residualKg ?? 0, 12);
  });
});

describe('what this job should have put in, and how far off it is', () => {
  test.each([
    [
      'pre-charged: only the 0.16 beyond the factory charge',
      { charge_basis: 'pre-charged', weighed_in_kg: 0.26 },
      0.16,
      0.1,
    ],
    ['empty after a repair: all 1.26', { charge_basis: 'empty', work_type: 'repair', weighed_in_kg: 1.2 }, 1.26, -0.06],
    [
      'a new unit is pre-charged unless the record says otherwise',
      { charge_basis: undefined, weighed_in_kg: 0.16 },
      0.16,
      0,
    ],
    ['nothing put in where 0.16 were wanted', { weighed_in_kg: 0 }, 0.16, -0.16],
  ] as const)('%s', (_, job, wantedKg, deviationKg) => {
    const facts = chargeFacts(material({ ...unit, line_length_m: 15.5, ...job }));
    expect(facts.charge_wanted_kg).toBeCloseTo(wantedKg, 12);
    expect(facts.charge_deviation_kg).toBeCloseTo(deviationKg, 12);
    expect(facts).not.toHaveProperty('charge_problem');
  });
});

describe('what is missing is named, and then there is no deviation', () => {
  const whole: Partial<Job> = { ...unit, line_length_m: 15.5, weighed_in_kg: 0.16 };
  test.each([
    ['no-weigh-in', { weighed_in_kg: undefined }],
    ['no-charging-work', { weighed_in_kg: undefined, work_type: 'service' }],
    ['no-charging-work', { weighed_in_kg: undefined, work_type: 'decommission' }],
    ['no-weigh-in', { weighed_in_kg: undefined, work_type: undefined }],
    ['no-factory-charge', { factory_charge_kg: undefined }],
    ['no-line-length', { line_length_m: undefined }],
    ['no-covered-length', { factory_line_m: undefined }],
    ['no-adder', { line_adder_kg_per_m: undefined }],
    ['no-charge-basis', { work_type: 'repair', charge_basis: undefined }],
    ['no-charge-basis', { work_type: undefined, charge_basis: undefined }],
    ['top-up', { work_type: 'recharge', charge_basis: 'top-up' }],
  ] as const)('%s: %o', (problem, without) => {
    const facts = chargeFacts(material({ ...whole, ...without }));
    expect(facts.charge_problem).toBe(problem);
    expect(facts).not.toHaveProperty('charge_deviation_kg');
    expect(facts).not.toHaveProperty('charge_wanted_kg');
  });

  test('one line set of several without a length spoils the target', () => {
    const facts = chargeFacts(material(whole, [{ line_length_m: 9, factory_line_m: 7.5 }]));
    expect(facts.charge_problem).toBe('no-adder');
    expect(facts).not.toHaveProperty('charge_target_kg');
    expect(facts.charged_kg).toBe(0.16);
  });

  test('service on which something was weighed in all the same is judged by its record', () => {
    expect(chargeFacts(material({ ...whole, work_type: 'service' })).charge_deviation_kg).toBeCloseTo(0, 12);
  });

  test('without a record there is nothing to say', () => {
    expect(chargeFacts({ jobId: 'j1', lineSets: [], weighings: [] })).toEqual({});
  });
});
