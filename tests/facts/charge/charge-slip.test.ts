import { describe, expect, test } from 'vitest';
import { chargeFacts } from '../../../src/facts/charge/charge-facts.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';

const poundKg = 0.45359237;
/** 1.1 kg cover 7.5 m; 12.5 m beyond at 25 g/m, 1/4 in, R-410A: 0.3125 kg to add; 30 g stay in the hoses. */
const unit: Partial<Job> = {
  work_type: 'install',
  charge_basis: 'pre-charged',
  refrigerant: 'R-410A',
  factory_charge_kg: 1.1,
  factory_line_m: 7.5,
  line_length_m: 20,
  line_adder_kg_per_m: 0.025,
  liquid_line_od_mm: 6.35,
  scale_step_kg: 0.005,
  hose_residual_kg: 0.03,
};
/** The same after an evacuation: 1.4125 kg. */
const empty: Partial<Job> = { ...unit, work_type: 'repair', charge_basis: 'empty' };

function found(job: Partial<Job>, chargedKg: number) {
  const record = { job_id: 'j1', started_at: '2026-03-05T14:30:00+01:00', ...job };
  const residualKg = job.hose_residual_kg ?? 0;
  return chargeFacts({
    jobId: 'j1',
    job: { ...record, weighed_in_kg: chargedKg + residualKg },
    lineSets: [],
    weighings: [],
  });
}

// Every figure by hand, from the words of the slip.
describe('each slip is named by the mass that it puts in', () => {
  test.each([
    ['the line left out', unit, 0, 'line-ignored', undefined],
    ['the line left out after an evacuation', empty, 1.1, 'line-ignored', undefined],
    ['17.5 m counted instead of 10: 0.4375', { ...unit, line_length_m: 17.5 }, 0.4375, 'from-zero', undefined],
    ['the adder of 3/8 in: (0.311/0.190)² times', unit, 0.3125 * (0.311 / 0.19) ** 2, 'other-line-size', '3/8 in'],
    [
      'R-22 at 1138.2 kg/m³ instead of 989.2',
      { ...unit, line_length_m: 40 },
      0.8125 * (1138.2 / 989.2),
      'other-refrigerant',
      'R-22',
    ],
    [
      '8.8 oz put in as 0.88 lb',
      { ...unit, line_length_m: 17.5 },
      ((0.25 / poundKg) * 16 * poundKg) / 10,
      'ounce-tenth-pound',
      'ounces were taken for tenths of a pound',
    ],
    [
      '3 lb 2 oz put in as 3.2 lb',
      { ...empty, line_length_m: 7.5, factory_charge_kg: 3.125 * poundKg, hose_residual_kg: 0.004 },
      3.2 * poundKg,
      'ounce-tenth-pound',
      'ounces were taken for tenths of a pound',
    ],
    ['kilograms taken for pounds', empty, 1.4125 * poundKg, 'kg-pound', 'kilograms were taken for pounds'],
    ['pounds taken for kilograms', empty, 1.4125 / poundKg, 'kg-pound', 'pounds were taken for kilograms'],
    ['the hoses not counted', { ...empty, hose_residual_kg: 0.065 }, 1.4125 - 0.065, 'hose-residual', 'not counted'],
    ['the factory charge once more', unit, 0.3125 + 1.1, 'factory-again', undefined],
  ] as const)('%s', (_, job, chargedKg, slip, of) => {
    const facts = found(job, chargedKg);
    expect(facts).toMatchObject({ charge_slip: slip, ...(of === undefined ? {} : { slip_of: of }) });
    expect(Math.abs((facts.slip_charge_kg ?? 0) - chargedKg)).toBeLessThan(0.012);
    expect(facts.slip_probability_ratio).toBeGreaterThan(0.55);
  });
});

describe('no slip is named', () => {
  test.each([
    ['where the charge is right', unit, 0.3125],
    ['where it is some grams off', unit, 0.322],
    ['where it is off by what no slip makes', unit, 0.3125 + 0.13],
    ['where two slips make the same: 11 oz as 1.1 lb, and 20 m for 12.5', unit, 0.5],
  ] as const)('%s', (_, job, chargedKg) => {
    expect(found(job, chargedKg)).not.toHaveProperty('charge_slip');
  });
});

test('a deviation comes with an interval that knows the hoses', () => {
  const recorded = found(unit, 0.3125);
  const assumed = found({ ...unit, hose_residual_kg: undefined }, 0.3125);
  const half = (facts: typeof recorded) =>
    ((facts.charge_deviation_high_kg ?? 0) - (facts.charge_deviation_low_kg ?? 0)) / 2;
  expect(half(recorded)).toBeLessThan(0.015);
  expect(half(assumed)).toBeGreaterThan(0.03);
});

test('what it costs: a tenth short has 95.6 % of its cooling by NIST TN 1848', () => {
  const facts = found({ ...empty, line_length_m: 7.5 }, 1.1 * 0.9);
  expect(facts.charge_capacity_ratio).toBeCloseTo(0.9557, 3);
  expect(facts.charge_cop_ratio).toBeCloseTo(0.9652, 3);
});
