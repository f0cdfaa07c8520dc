import { describe, expect, test } from 'vitest';
import { simulateFleet } from '../../../src/simulate/fleet.ts';
import type { Weighing } from '../../../src/records/tables/weighings.ts';
import type { SimulatedJob } from '../../../src/simulate/job.ts';
import { scaleUpsetNames } from '../../../src/simulate/scale/scale-upsets.ts';

const fleet = simulateFleet({ jobs: 900, seed: 11 });
/** The charge alone, its weighings as the scale showed them: what is recovered, and slips of the hand, have tests of their own. */
const jobs = [...fleet.jobs()].map((one) => ({ ...one, weighings: one.weighings.flatMap((row) => asShown(one, row)) }));
const logged = jobs.flatMap((one) => (one.readings === undefined ? [] : [{ ...one, readings: one.readings }]));

/** Place of the first reading of the vacuum: the pressure test lies before. */
const vacuumFrom = ({ testPa }: { readonly testPa: Float64Array }) =>
  testPa.findLastIndex((pa) => !Number.isNaN(pa)) + 1;

function asShown({ cylinderTruth }: SimulatedJob, row: Weighing): Weighing[] {
  if (row.direction === 'out') return [];
  const truth = cylinderTruth.find(({ weighing_id }) => weighing_id === row.weighing_id);
  if (truth === undefined) return [row];
  const { cylinder_id, true_start_kg, true_end_kg } = truth;
  return [{ ...row, cylinder_id, start_kg: true_start_kg, end_kg: true_end_kg }];
}

describe('the weigh-ins of a fleet', () => {
  const weighed = jobs.filter(({ truth }) => (truth.drawn_kg ?? 0) > 0);
  const upsetBy = ({ truth }: SimulatedJob, ...names: string[]) =>
    names.some((name) => truth.scale_upset?.split('+').includes(name));
  const dropKg = ({ weighings }: SimulatedJob) =>
    weighings.reduce((sum, { start_kg = 0, end_kg = 0 }) => sum + start_kg - end_kg, 0);

  test('what leaves the cylinder is the charge and what stands in the hose', () => {
    for (const { truth } of weighed) {
      const { drawn_kg, charged_kg = 0, hose_residual_kg = 0 } = truth;
      expect(drawn_kg).toBeCloseTo(charged_kg + hose_residual_kg, 9);
    }
    const none = jobs.filter((one) => !weighed.includes(one));
    expect(none.length).toBeGreaterThan(100);
    for (const { job, weighings, truth } of none) {
      expect([job.weighed_in_kg, weighings, truth.drawn_kg, truth.scale_logged]).toEqual([0, [], 0, undefined]);
    }
  });

  test('the weighings are what left, to their steps and the drift; hidden by a hose, tens of grams off', () => {
    const apartKg = (one: SimulatedJob) => Math.abs(dropKg(one) - (one.truth.drawn_kg ?? 0));
    const calm = weighed.filter((one) => !upsetBy(one, 'hose', 'drift', 'wind'));
    expect(calm.length).toBeGreaterThan(300);
    for (const one of calm) {
      expect(apartKg(one)).toBeLessThanOrEqual(one.weighings.length * (one.job.scale_step_kg ?? 0) + 0.012);
    }
    const pulled = weighed.filter((one) => upsetBy(one, 'hose'));
    expect(pulled.filter((one) => apartKg(one) > 0.025).length / pulled.length).toBeGreaterThan(0.1);
  });

  test('nearly all write down the drop of the scale', () => {
    const wrong = weighed.filter((one) => Math.abs((one.job.weighed_in_kg ?? 0) - dropKg(one)) > 1e-6);
    expect(wrong.length).toBeGreaterThan(2);
    expect(wrong.length / weighed.length).toBeLessThan(0.03);
  });

  test('a logged scale falls by what left the cylinder, where nothing upsets it', () => {
    let seen = 0;
    for (const one of logged.filter(({ truth }) => truth.scale_logged && truth.scale_upset === undefined)) {
      const { readings, job, truth } = one;
      const shown = readings.scaleKg.filter((kg) => !Number.isNaN(kg));
      const from = vacuumFrom(readings);
      const whole = readings.elapsedS.every(
        (atS, index) =>
          index <= from || atS >= (truth.run_start_s ?? Infinity) || atS - (readings.elapsedS[index - 1] ?? 0) < 12,
      );
      if (!whole) continue;
      const fallKg = shown[0] - (shown.at(-1) as number);
      expect(Math.abs(fallKg - dropKg(one))).toBeLessThanOrEqual(2.01 * (job.scale_step_kg ?? 0) + 0.006);
      seen++;
    }
    expect(seen).toBeGreaterThan(150);
  });

  test('most weigh-ins are calm; every upset occurs; two weighings where the cylinder is changed', () => {
    const calm = weighed.filter(({ truth }) => truth.scale_upset === undefined).length / weighed.length;
    expect(calm).toBeGreaterThan(0.53);
    expect(calm).toBeLessThan(0.67);
    for (const name of scaleUpsetNames) expect(weighed.some((one) => upsetBy(one, name))).toBe(true);
    for (const one of weighed) {
      const cylinderIds = new Set(one.weighings.map(({ cylinder_id }) => cylinder_id));
      expect(cylinderIds.size).toBe(upsetBy(one, 'cylinder-change') ? 2 : 1);
      if (one.weighings.length > 1) expect(upsetBy(one, 'cylinder-change', 're-zero')).toBe(true);
    }
  });

  test('the record has the residual, or the hose, or neither; some lack the adder', () => {
    const shareOf = (is: (one: SimulatedJob) => boolean) => weighed.filter(is).length / weighed.length;
    expect(Math.abs(shareOf(({ job }) => job.hose_residual_kg !== undefined) - 0.45)).toBeLessThan(0.07);
    expect(Math.abs(shareOf(({ job }) => job.charging_hose_bore_mm !== undefined) - 0.45)).toBeLessThan(0.07);
    for (const { job, truth } of weighed) {
      if (job.hose_residual_kg === undefined) continue;
      expect(job.charging_hose_bore_mm).toBeUndefined();
      expect(Math.abs(job.hose_residual_kg / (truth.hose_residual_kg ?? 0) - 1)).toBeLessThan(
        0.1 + 0.0006 / (truth.hose_residual_kg ?? 0),
      );
    }
    const single = jobs.filter(({ lineSets }) => lineSets.length === 0);
    const without = single.filter(({ job }) => job.line_adder_kg_per_m === undefined).length / single.length;
    expect(Math.abs(without - 0.08)).toBeLessThan(0.04);
  });

  test('the target rests on the true length of the lines, the technician on the recorded one', () => {
    let offBy = 0;
    for (const { job, truth } of jobs.filter(({ job: { line_adder_kg_per_m } }) => line_adder_kg_per_m !== undefined)) {
      const { line_length_m = 0, factory_line_m = 0, line_adder_kg_per_m = 0, factory_charge_kg = 0 } = job;
      const trueM = line_length_m - (truth.line_length_error_m ?? 0);
      expect(truth.charge_target_kg).toBeCloseTo(
        factory_charge_kg + Math.max(0, trueM - factory_line_m) * line_adder_kg_per_m,
        9,
      );
      if (Math.abs(truth.line_length_error_m ?? 0) > 0.051) offBy++;
    }
    expect(offBy).toBeGreaterThan(15);
    expect(offBy / jobs.length).toBeLessThan(0.12);
  });
});
