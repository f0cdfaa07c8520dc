import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { applianceTruthColumns } from '../../src/simulate/appliance-truth.ts';
import { callbackTruthColumns } from '../../src/simulate/callback-truth.ts';
import { dateOfDay } from '../../src/simulate/calendar.ts';
import { crewTruth, crewTruthColumns } from '../../src/simulate/crew-truth.ts';
import { crews } from '../../src/simulate/crews.ts';
import { cylinderTruthColumns } from '../../src/simulate/cylinder-truth.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import {
  technicianTruth,
  technicianTruthColumns,
  trainingTruth,
  trainingTruthColumns,
} from '../../src/simulate/technician-truth.ts';
import { onDay, technicians } from '../../src/simulate/technicians.ts';
import { mishapColumns, truthColumns } from '../../src/simulate/truth.ts';

const fleet = simulateFleet({ jobs: 400, seed: 21, intervalS: 20 });
const jobs = [...fleet.jobs()];

test('every callback has a cause, and the cause is one that its job left behind', () => {
  const called = jobs.filter(({ callback }) => callback !== undefined);
  expect(called.length).toBeGreaterThan(15);
  const causes = new Set<string>();
  const found = { leak: /leak/, moisture: /moisture/, charge: /charge/, unrelated: /not refrigerant/ } as const;
  for (const { callback, callbackTruth, job, truth, revisit } of called) {
    const cause = callbackTruth?.caused_by ?? 'unrelated';
    causes.add(cause);
    expect(callbackTruth).toEqual({ callback_id: callback?.callback_id, job_id: job.job_id, caused_by: cause });
    expect(revisit === undefined).toBe(cause === 'unrelated');
    if (cause !== 'unrelated') expect(truth.callback_risk).toBeGreaterThan(0);
    if (cause === 'charge')
      expect(Math.abs(truth.charge_deviation_kg ?? 0) / (truth.charge_target_kg ?? 0)).toBeGreaterThan(0.08);
    if (cause === 'leak' && job.charge_basis !== 'top-up') expect(truth.circuit_leak_pa_per_s).toBeGreaterThan(0.005);
    if (callback?.cause_found !== undefined) expect(callback.cause_found).toMatch(found[cause]);
  }
  expect([...causes].sort()).toEqual(['charge', 'leak', 'moisture', 'unrelated']);
  expect(
    jobs.filter(({ callback, callbackTruth }) => (callback === undefined) !== (callbackTruth === undefined)),
  ).toEqual([]);
});

test('what is true of technicians is what they are drawn by, on every day', () => {
  const rows = technicianTruth();
  for (const row of rows) expect(Object.keys(row)).toEqual(technicianTruthColumns);
  for (const technician of technicians)
    for (const day of [0, 119, 120, 149, 150, 214, 215, 364]) {
      const on = dateOfDay(day);
      const holding = rows.filter(
        ({ technician_id, from_on, to_on }) =>
          technician_id === technician.technicianId && String(from_on) <= on && on <= String(to_on ?? '9999'),
      );
      expect(holding).toHaveLength(1);
      const { crewId, skipsRiseTest, wetMultiple, slips } = onDay(technician, day);
      expect(holding[0]).toMatchObject({
        crew_id: crewId,
        skips_rise_test: skipsRiseTest,
        wet_multiple: wetMultiple,
        slip_from_zero: slips['from-zero'] ?? 0,
      });
    }
});

test('what is true of gear changes on the day on which it does', () => {
  const rows = crewTruth();
  for (const row of rows) expect(Object.keys(row)).toEqual(crewTruthColumns);
  expect(rows).toHaveLength(crews.length + 2);
  const [sound, worn] = rows.filter(({ crew_id }) => crew_id === 'crew-dogwood');
  expect([sound.to_on, worn.from_on]).toEqual([dateOfDay(229), dateOfDay(230)]);
  expect([sound.pump_base_pa, worn.pump_base_pa]).toEqual([4, 24]);
  expect(worn.pump_speed_l_per_s).toBeCloseTo(0.7 * sound.pump_speed_l_per_s, 3);
  const [tight, leaking] = rows.filter(({ crew_id }) => crew_id === 'crew-birch');
  expect([tight.hose_leak_pa_m3_per_s, leaking.hose_leak_pa_m3_per_s]).toEqual([0, 1.6e-4]);
});

test('of the trainings one changed something', () => {
  const rows = trainingTruth(fleet.trainings);
  expect(rows.map(({ training_id }) => training_id)).toEqual(fleet.trainings.map(({ training_id }) => training_id));
  expect(rows.filter(({ changed }) => changed !== undefined)).toEqual([
    { training_id: 'training-1', technician_id: 't08', changed: 'skips_rise_test', before: 0.55, after: 0.15 },
  ]);
  for (const row of rows) for (const column of Object.keys(row)) expect(trainingTruthColumns).toContain(column);
});

test('the page of the truth tells every column', () => {
  const page = readFileSync(new URL('../../docs/simulated-truth.md', import.meta.url), 'utf8');
  const columns = [
    ...truthColumns,
    ...mishapColumns,
    ...callbackTruthColumns,
    ...technicianTruthColumns,
    ...trainingTruthColumns,
    ...crewTruthColumns,
    ...cylinderTruthColumns,
    ...applianceTruthColumns,
  ];
  expect(columns.filter((column) => !page.includes(`\`${column}\``))).toEqual([]);
});
