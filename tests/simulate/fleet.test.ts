import { describe, expect, test } from 'vitest';
import { columnsOf } from '../../src/records/table.ts';
import { tableNamed } from '../../src/records/tables.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import type { SimulatedJob } from '../../src/simulate/job.ts';

const fleet = simulateFleet({ jobs: 900, seed: 11 });
const jobs = [...fleet.jobs()];
const rows = {
  people: fleet.people,
  memberships: fleet.memberships,
  trainings: fleet.trainings,
  gauges: fleet.gauges,
  cylinders: fleet.cylinders(),
  jobs: jobs.map(({ job }) => job),
  line_sets: jobs.flatMap(({ lineSets }) => lineSets),
  weighings: [...jobs.flatMap(({ weighings }) => weighings), ...fleet.plant.weighings],
  appliances: [...jobs.flatMap(({ appliance }) => appliance ?? []), ...fleet.plant.appliances],
  repairs: fleet.plant.repairs,
  inspections: fleet.plant.inspections,
  callbacks: jobs.flatMap(({ callback }) => callback ?? []),
};

/** Share of a technician's jobs of which that is true. */
function share(technicianId: string, isTrue: (one: SimulatedJob) => boolean): number {
  const own = jobs.filter(({ job }) => job.technician_id === technicianId);
  return own.filter(isTrue).length / own.length;
}

/** Place of the first reading of the vacuum: the pressure test lies before. */
const vacuumFrom = ({ testPa }: { readonly testPa: Float64Array }) =>
  testPa.findLastIndex((pa) => !Number.isNaN(pa)) + 1;

/** Logs of pressure test and vacuum; the run test, which comes last, is cut off. */
const logged = jobs.flatMap((one) => {
  const { readings, truth } = one;
  const from = readings?.elapsedS.findIndex((atS) => atS >= (truth.run_start_s ?? Number.POSITIVE_INFINITY)) ?? 0;
  if (readings === undefined || from === 0) return [];
  const before = (column: Float64Array) => (from < 0 ? column : column.subarray(0, from));
  const { elapsedS, vacuumPa, testPa, lineC, scaleKg } = readings;
  const columns = { elapsedS: before(elapsedS), vacuumPa: before(vacuumPa), testPa: before(testPa) };
  return [{ ...one, readings: { ...columns, lineC: before(lineC), scaleKg: before(scaleKg) } }];
});

describe('simulateFleet', () => {
  test.each(Object.entries(rows))('every row of %s holds to its schema, and its keys are unique', (name, tableRows) => {
    const table = tableNamed(name);
    if (table === undefined) throw new Error(`no table ${name}`);
    expect(tableRows.length).toBeGreaterThan(0);
    const keys = new Set<string>();
    for (const row of tableRows) {
      expect(() => table.schema.parse(row)).not.toThrow();
      keys.add(JSON.stringify(table.key.map((column) => (row as Record<string, unknown>)[column])));
    }
    expect(keys.size).toBe(tableRows.length);
  });

  test('equal options give equal fleets, another seed another one; a later call starts over', () => {
    const first = (seed: number) => {
      const small = simulateFleet({ jobs: 12, seed });
      return JSON.stringify(
        [...small.jobs()].map((one) => ({
          ...one,
          readings: one.readings && Object.values(one.readings).map((column) => [...column]),
        })),
      );
    };
    expect(first(5)).toBe(first(5));
    expect(first(5)).not.toBe(first(6));
    const twice = simulateFleet({ jobs: 5, seed: 5 });
    const draw = () =>
      JSON.stringify([[...twice.jobs()].map(({ job }) => job), twice.cylinders(), twice.cylinderTruth()]);
    expect(draw()).toBe(draw());
  });

  test('starts run from the first to the last day, in order', () => {
    const starts = jobs.map(({ job }) => job.started_at);
    expect([...starts].sort((a, b) => (a < b ? -1 : 1))).toEqual(starts);
    expect(starts[0]?.slice(0, 10)).toBe('2025-07-01');
    expect(starts.at(-1)?.slice(0, 10)).toBe('2026-06-30');
    expect(starts.every((start) => start.endsWith('-06:00'))).toBe(true);
    for (const { job } of jobs) expect(Date.parse(job.ended_at ?? '')).toBeGreaterThan(Date.parse(job.started_at));
  });

  test('readings rise strictly in time, are never negative, and step as the gauge does', () => {
    const faults = logged.flatMap(({ readings: { elapsedS, vacuumPa }, job }) => {
      const stepPa = job.gauge_step_pa ?? 0;
      const steps = (pa: number) =>
        Number.isNaN(pa) || pa >= stepPa * 900 || Math.abs(pa / stepPa - Math.round(pa / stepPa)) < 0.01;
      return [
        ...(elapsedS.every((atS, index) => index === 0 || atS > elapsedS[index - 1]) ? [] : [`${job.job_id}: time`]),
        ...(vacuumPa.every((pa) => !(pa < 0)) ? [] : [`${job.job_id}: below 0`]),
        ...(vacuumPa.every(steps) ? [] : [`${job.job_id}: step`]),
      ];
    });
    expect(faults).toEqual([]);
  });

  test('vacuum logs of small ductless systems run for some 10 to 60 minutes, most 15 to 45', () => {
    const minutes = logged
      .filter(({ job, truth }) => job.system_type === 'ductless' && truth.log_cut === undefined)
      .map(({ readings }) => ((readings.elapsedS.at(-1) ?? 0) - readings.elapsedS[vacuumFrom(readings)]) / 60)
      .sort((a, b) => a - b);
    expect(minutes[Math.floor(minutes.length * 0.1)]).toBeGreaterThan(8);
    expect(minutes[Math.floor(minutes.length * 0.5)]).toBeGreaterThan(15);
    expect(minutes[Math.floor(minutes.length * 0.5)]).toBeLessThan(40);
    expect(minutes[Math.floor(minutes.length * 0.9)]).toBeLessThan(65);
  });

  test('the deviation is what was put in less what should have been', () => {
    for (const { job, truth } of jobs.filter(({ job: { charge_basis } }) => charge_basis !== 'top-up')) {
      const rightKg =
        (truth.charge_target_kg ?? 0) - (job.charge_basis === 'pre-charged' ? (job.factory_charge_kg ?? 0) : 0);
      expect(truth.charge_deviation_kg).toBeCloseTo((truth.charged_kg ?? 0) - rightKg, 9);
    }
    const slipped = jobs.filter(({ truth }) => truth.charge_slip !== undefined);
    expect(slipped.length).toBeGreaterThan(40);
    expect(slipped.every(({ truth }) => Math.abs(truth.charge_slip_kg ?? 0) >= 0.02)).toBe(true);
    expect(jobs.filter(({ truth }) => truth.charge_slip === undefined && truth.charge_slip_kg !== undefined)).toEqual(
      [],
    );
    // What is left of the deviation is the miss, mostly of a few grams, and what a hose hid or a tape got wrong.
    const leftKg = slipped
      .map(({ truth }) => Math.abs((truth.charge_deviation_kg ?? 0) - (truth.charge_slip_kg ?? 0)))
      .sort((a, b) => a - b);
    expect(leftKg[Math.floor(leftKg.length / 2)]).toBeLessThan(0.01);
  });

  test('technicians and crews differ as they were made', () => {
    const absent = ({ truth }: SimulatedJob) => truth.rise_shape === 'absent';
    const fromZero = ({ truth }: SimulatedJob) => truth.charge_slip === 'from-zero';
    const shortHold = ({ truth, job }: SimulatedJob) =>
      truth.hold_s !== undefined && truth.hold_s < (job.hold_target_s ?? 0) / 2;
    expect(share('t08', absent)).toBeGreaterThan(3 * share('t01', absent));
    expect(share('t02', fromZero)).toBeGreaterThan(0.2);
    expect(share('t04', fromZero)).toBe(0);
    expect(share('t05', shortHold)).toBeGreaterThan(2 * share('t07', shortHold));
    const rises = (crewId: string) => {
      const own = logged.filter(
        ({ job, truth }) => job.crew_id === crewId && job.started_at > '2025-10' && truth.leak_pa_per_s !== undefined,
      );
      return (
        own.filter(({ truth }) => (truth.leak_pa_per_s ?? 0) > (truth.circuit_leak_pa_per_s ?? 0) + 0.005).length /
        own.length
      );
    };
    expect(rises('crew-birch')).toBeGreaterThan(0.1);
    expect(rises('crew-alder')).toBe(0);
  });

  test('faulty jobs are called back more often', () => {
    const rate = (of: readonly SimulatedJob[]) =>
      of.filter(({ callback }) => callback !== undefined).length / of.length;
    const faulty = jobs.filter(({ truth }) => (truth.callback_risk ?? 0) > 0.25);
    const sound = jobs.filter(({ truth }) => truth.callback_risk === 0);
    expect(faulty.length).toBeGreaterThan(30);
    expect(rate(faulty)).toBeGreaterThan(3 * rate(sound));
  });

  test('some jobs have no log, no targets, a compound gauge, marks, several lines', () => {
    const compound = fleet.gauges.find(({ kind }) => kind === 'compound')?.gauge_id;
    expect(jobs.length - logged.length).toBeGreaterThan(10);
    expect(jobs.filter(({ job }) => job.vacuum_target_pa === undefined).length).toBeGreaterThan(40);
    expect(jobs.filter(({ job }) => job.gauge_id === compound).length).toBeGreaterThan(5);
    const marked = logged.filter(({ marks }) => marks.length > 0).length / logged.length;
    expect(marked).toBeGreaterThan(0.4);
    expect(marked).toBeLessThan(0.6);
    expect(rows.line_sets.length).toBeGreaterThan(100);
    const dropped = logged.filter(({ readings }) =>
      readings.vacuumPa.subarray(vacuumFrom(readings)).some(Number.isNaN),
    );
    expect(dropped.length).toBeGreaterThan(10);
  });

  test('a follow-up goes back to the system of a job that was called back, after the call', () => {
    const followUps = jobs.filter(({ job }) => job.followup_of_job_id !== undefined);
    expect(followUps.length).toBeGreaterThan(10);
    for (const { job, appliance } of followUps) {
      const first = jobs.find((one) => one.job.job_id === job.followup_of_job_id);
      expect(first?.job.system_id).toBe(job.system_id);
      expect(Date.parse(first?.callback?.reported_at ?? '')).toBeLessThan(Date.parse(job.started_at));
      expect(first?.job.refrigerant).toBe(job.refrigerant);
      expect(appliance).toBeUndefined();
      expect(job.charge_basis).toBe('empty');
    }
    const serviced = new Set(fleet.plant.appliances.map(({ system_id }) => system_id));
    expect(new Set(rows.appliances.map(({ system_id }) => system_id))).toEqual(
      new Set([...rows.jobs.map(({ system_id }) => system_id), ...serviced]),
    );
    expect(rows.jobs.some(({ system_id }) => serviced.has(system_id ?? ''))).toBe(false);
  });

  test('nobody is on two jobs at once', () => {
    const untilMs = new Map<string | undefined, number>();
    for (const { job } of jobs) {
      expect(Date.parse(job.started_at)).toBeGreaterThanOrEqual(untilMs.get(job.technician_id) ?? 0);
      untilMs.set(job.technician_id, Date.parse(job.ended_at ?? ''));
    }
  });

  const none = (many: number) => Array.from({ length: many }, () => undefined);

  test('a top-up has no pressure test, no vacuum and no deviation, but is weighed', () => {
    const topUps = jobs.filter(({ job }) => job.charge_basis === 'top-up');
    expect(topUps.length).toBeGreaterThan(10);
    for (const { job, truth, readings, weighings } of topUps) {
      const { work_type, gauge_id, test_pressure_target_pa, design_high_pa } = job;
      expect([work_type, gauge_id, test_pressure_target_pa, design_high_pa]).toEqual(['recharge', ...none(3)]);
      const { rise_shape, charge_deviation_kg, pressure_test } = truth;
      expect([rise_shape, charge_deviation_kg, pressure_test]).toEqual(none(3));
      expect(readings?.vacuumPa.every(Number.isNaN)).not.toBe(false);
      expect(readings?.testPa.every(Number.isNaN)).not.toBe(false);
      expect(weighings.length).toBeGreaterThan(0);
      expect(job.weighed_in_kg).toBeGreaterThan(0);
    }
  });

  test('most logs go on to a run test, some way after what was logged before, and most top-ups are logged so', () => {
    const run = jobs.filter(({ truth }) => truth.run_pattern !== undefined);
    expect(run.length / logged.length).toBeGreaterThan(0.5);
    expect(run.length / logged.length).toBeLessThan(0.75);
    for (const { readings, truth, marks, runModes, job } of run) {
      const { elapsedS, suctionPa, vacuumPa } = readings ?? {};
      const startS = truth.run_start_s ?? Number.NaN;
      const first = elapsedS?.findIndex((atS) => atS >= startS) ?? -1;
      expect(elapsedS?.[first]).toBe(startS);
      expect(suctionPa?.subarray(0, first).every(Number.isNaN)).toBe(true);
      expect(suctionPa?.subarray(first).every((pa) => pa > 0)).toBe(true);
      expect(vacuumPa?.subarray(first).every(Number.isNaN)).toBe(true);
      if (first > 0) expect(startS - (elapsedS?.[first - 1] ?? 0)).toBeGreaterThan(59);
      if (marks.length > 0) expect(marks.at(-1)).toEqual({ fromS: startS, mark: 'run' });
      if (runModes.length > 0) expect(runModes[0]).toEqual({ fromS: startS, mode: undefined });
      if (job.fixed_test_mode !== undefined) expect(job.compressor).toBe('variable');
      if (truth.steady_start_s === undefined) continue;
      expect(truth.steady_start_s).toBeGreaterThan(startS + 120);
      expect(truth.steady_end_s).toBeLessThanOrEqual(elapsedS?.at(-1) ?? 0);
    }
    const topUps = jobs.filter(({ job }) => job.charge_basis === 'top-up');
    expect(topUps.filter(({ readings }) => readings !== undefined).length / topUps.length).toBeGreaterThan(0.7);
  });

  test('what is in the system is mostly what the record says', () => {
    const wrong = jobs.filter(({ job, truth }) => truth.true_refrigerant !== job.refrigerant);
    expect(wrong.every(({ job }) => job.charge_basis === 'empty')).toBe(true);
    expect(wrong.length).toBeLessThan(20);
    for (const { job, truth, weighings } of jobs) {
      for (const { refrigerant } of weighings) expect([job.refrigerant, truth.true_refrigerant]).toContain(refrigerant);
    }
  });

  test('a cylinder never gives more than it held', () => {
    const planted = fleet.cylinderTruth();
    // What is written of these is not what happened; the tests of the cylinder truth look at them.
    const amiss = new Set(planted.flatMap((one) => [one.cylinder_id, one.other_cylinder_id]));
    const sound = rows.cylinders.filter(({ cylinder_id, kind }) => kind === 'supply' && !amiss.has(cylinder_id));
    expect(sound.length).toBeGreaterThan(50);
    for (const cylinder of sound) {
      const weighed = rows.weighings.filter(({ cylinder_id }) => cylinder_id === cylinder.cylinder_id);
      const takenKg = weighed.reduce((sum, { start_kg = 0, end_kg = 0 }) => sum + start_kg - end_kg, 0);
      expect(takenKg).toBeGreaterThan(0);
      // A hose that pulls at a cylinder lets the weighings say some grams more than it held.
      const ids = new Set(weighed.map(({ job_id }) => job_id));
      const isUpset = jobs.some(({ job, truth }) => ids.has(job.job_id) && truth.scale_upset !== undefined);
      expect(takenKg).toBeLessThanOrEqual((cylinder.net_kg ?? 0) + (isUpset ? 0.2 : 0));
      const leftKg = (cylinder.net_kg ?? 0) - takenKg;
      expect(Math.abs(leftKg - (cylinder.closing_kg ?? leftKg))).toBeLessThan(0.5);
    }
  });

  test('every column is one of its table', () => {
    for (const [name, tableRows] of Object.entries(rows)) {
      const table = tableNamed(name);
      const known = new Set(table === undefined ? [] : columnsOf(table).map((column) => column.name));
      for (const row of tableRows) for (const column of Object.keys(row)) expect(known.has(column)).toBe(true);
    }
  });
});
