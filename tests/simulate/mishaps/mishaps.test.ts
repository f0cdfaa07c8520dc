import { describe, expect, test } from 'vitest';
import { median } from '../../../src/numerics/median.ts';
import { simulateFleet } from '../../../src/simulate/fleet.ts';
import type { SimulatedJob } from '../../../src/simulate/job.ts';
import type { JobReadings } from '../../../src/simulate/job-log.ts';
import { copyKinds } from '../../../src/simulate/mishaps/copy-kinds.ts';
import type { FaultKind } from '../../../src/simulate/mishaps/fault-kind.ts';
import { ageingGauges, lentGauges } from '../../../src/simulate/mishaps/other-gauges.ts';
import { readingColumnOf } from '../../../src/simulate/mishaps/reading-column.ts';
import { mishapColumns } from '../../../src/simulate/truth.ts';

const options = { jobs: 700, seed: 6, intervalS: 5 } as const;
const plain = [...simulateFleet(options).jobs()];
const fleet = simulateFleet({ ...options, mishaps: true });
const pairs = Array.from(fleet.jobs(), (job, index) => ({ job, before: plain[index] }));

/** All that is known of a job, as text; absent and undefined are the same. */
const told = ({ readings, ...rest }: SimulatedJob) =>
  JSON.stringify([rest, readings && Object.entries(readings).map(([name, values]) => [name, Array.from(values)])]);
const otherGauge = ({ job }: SimulatedJob) => lentGauges.some(({ gaugeId }) => gaugeId === job.gauge_id);
const otherRefrigerant = ({ job, truth }: SimulatedJob) => truth.true_refrigerant !== job.refrigerant;
const mishapsOf = (one: SimulatedJob): string[] => [
  ...mishapColumns.filter((column) => one.truth[column] !== undefined),
  ...(otherGauge(one) ? ['gauge_id'] : []),
  ...(otherRefrigerant(one) ? ['true_refrigerant'] : []),
];
/** Jobs that have that mishap and no other. */
const withOnly = (...columns: string[]) =>
  pairs.filter(({ job }) => {
    const own = mishapsOf(job);
    return job.readings !== undefined && own.length > 0 && own.every((column) => columns.includes(column));
  });
const readingsOf = ({ readings }: SimulatedJob) => readings as JobReadings;
const fromFirst = (values: Float64Array) =>
  Array.from(values.subarray(values.findIndex((value) => !Number.isNaN(value))));
const read = (values: ArrayLike<number>) => Array.from(values).filter((value) => !Number.isNaN(value));

describe('a fleet with mishaps', () => {
  test('is the fleet without, but for the jobs that have one', () => {
    const untouched = pairs.filter(({ job }) => mishapsOf(job).length === 0);
    expect(untouched.length).toBeGreaterThan(300);
    expect(untouched.length).toBeLessThan(550);
    expect(untouched.filter(({ job, before }) => told(job) !== told(before))).toEqual([]);
  });

  test('has the same work done by the same people, with the same left behind and the same callbacks', () => {
    const done = ({ job, lineSets, weighings, appliance, callback, callbackTruth, endDay, truth }: SimulatedJob) => {
      const { job_id, started_at, ended_at, technician_id, crew_id, weighed_in_kg } = job;
      const { charged_kg, circuit_leak_pa_per_s, water_left_kg, callback_risk } = truth;
      const masses = weighings.map(({ weighing_id, start_kg, end_kg }) => [weighing_id, start_kg, end_kg]);
      return [
        { job_id, started_at, ended_at, technician_id, crew_id, weighed_in_kg },
        { charged_kg, circuit_leak_pa_per_s, water_left_kg, callback_risk },
        [lineSets, masses, appliance, callback, callbackTruth, endDay],
      ];
    };
    expect(pairs.map(({ job }) => done(job))).toEqual(pairs.map(({ before }) => done(before)));
  });

  test('is the same from the same seed, and another from another', () => {
    const first = (seed: number) =>
      Array.from(simulateFleet({ jobs: 40, seed, intervalS: 5, mishaps: true }).jobs(), told);
    expect(first(6)).toEqual(first(6));
    expect(first(6)).not.toEqual(first(7));
  });

  test('has each of them', () => {
    const seen = (column: (typeof mishapColumns)[number]) =>
      [...new Set(pairs.flatMap(({ job }) => job.truth[column] ?? []).map(String))].sort();
    const kinds: FaultKind[] = ['clipped', 'clock-ahead', 'clock-back', 'hangs', 'left-out', 'time-unit', 'unit'];
    expect(seen('copy_kind')).toEqual(Object.keys(copyKinds).sort());
    expect(seen('copied_columns')).toEqual(['test_pressure_pa', 'test_pressure_pa+vacuum_pa', 'vacuum_pa']);
    expect(seen('recording_fault_kind')).toEqual(kinds);
    expect(seen('unmodelled')).toEqual([
      'hose-touched',
      'leak-changes',
      'stretched-desorption',
      'third-volume',
      'warming',
    ]);
    expect(seen('gauge_drift_ratio').length).toBeGreaterThan(50);
    expect(seen('circuit_drift_k_per_s').length).toBeGreaterThan(20);
    const gaugeIds = new Set(pairs.map(({ job }) => job.job.gauge_id));
    for (const { gaugeId } of lentGauges) expect(gaugeIds).toContain(gaugeId);
    for (const { gauge_id } of fleet.gauges) expect(gaugeIds).toContain(gauge_id);
    expect(pairs.filter(({ job }) => otherRefrigerant(job)).length).toBeGreaterThan(5);
    const modes = new Set(pairs.flatMap(({ job }) => job.runModes.flatMap(({ mode }) => mode ?? [])));
    expect([...modes].sort()).toEqual(['cooling', 'defrost', 'heating']);
  });
});

describe('copies', () => {
  const copied = pairs.filter(({ job }) => job.truth.copied_from_job_id !== undefined);
  const columnsOf = ({ truth }: SimulatedJob) =>
    truth.copied_columns
      ?.split('+')
      .map((column) => (column === 'vacuum_pa' ? ('vacuumPa' as const) : ('testPa' as const))) ?? [];

  test('are of an earlier job of the same technician, whose own log is not one', () => {
    const byId = new Map(pairs.map(({ job }) => [job.job.job_id, job]));
    for (const { job } of copied) {
      const donor = byId.get(job.truth.copied_from_job_id ?? '');
      expect(donor?.job.technician_id).toBe(job.job.technician_id);
      expect(Date.parse(donor?.job.started_at ?? '')).toBeLessThan(Date.parse(job.job.started_at));
      expect([donor?.truth.copied_from_job_id, donor?.truth.recording_fault]).toEqual([undefined, undefined]);
    }
  });

  test('stand in the readings as the kind says', () => {
    const byId = new Map(pairs.map(({ job }) => [job.job.job_id, job]));
    for (const { job } of copied) {
      const { copy_kind: kind = '', copied_from_job_id: id = '' } = job.truth;
      const isTrimmed = kind.includes('trimmed') || kind === 'all of it';
      const widest = kind.includes('re-noised') || kind === 'all of it' ? 0.12 : kind.includes('scaled') ? 0.035 : 0;
      for (const column of columnsOf(job)) {
        const [copy, donor] = [job, byId.get(id) as SimulatedJob].map((one) => fromFirst(readingsOf(one)[column]));
        const rows = Math.floor(0.55 * read(donor).length * (isTrimmed ? 0.6 : 1) * (column === 'vacuumPa' ? 0.7 : 1));
        const piece = copy.slice(0, Math.min(rows, 60));
        // A step of the gauge, where it is rounded anew.
        const slackPa = widest === 0 ? 0 : column === 'testPa' ? 35_000 : 15;
        const isCopyAt = (at: number) =>
          piece.every((pa, row) => {
            const other = donor[at + row];
            return Object.is(pa, other) || Math.abs(pa - other) <= widest * other + slackPa;
          });
        const last = isTrimmed ? donor.length - piece.length : 0;
        const found = Array.from({ length: last + 1 }, (_, at) => at).some(isCopyAt);
        expect([job.job.job_id, kind, column, piece.length > 20, found]).toEqual([
          job.job.job_id,
          kind,
          column,
          true,
          true,
        ]);
      }
    }
  });

  test('leave a log whose times rise, that fits into the job, and whose other parts are its own', () => {
    for (const { job, before } of copied) {
      const { elapsedS, suctionPa = new Float64Array(), scaleKg } = readingsOf(job);
      expect(elapsedS.every((atS, row) => row === 0 || atS > elapsedS[row - 1])).toBe(true);
      const lastsS = (Date.parse(job.job.ended_at ?? '') - Date.parse(job.job.started_at)) / 1000;
      expect(elapsedS.at(-1)).toBeLessThanOrEqual(lastsS);
      expect(read(suctionPa)).toEqual(read(readingsOf(before).suctionPa ?? new Float64Array()));
      // What is weighed while the copied curve still stands is not on the log.
      const own = read(readingsOf(before).scaleKg);
      expect(own.slice(own.length - read(scaleKg).length)).toEqual(read(scaleKg));
      const startS = job.truth.run_start_s;
      if (startS !== undefined) expect(suctionPa[elapsedS.indexOf(startS)]).toBeGreaterThan(0);
    }
  });
});

describe('what goes wrong with a recording', () => {
  const faulty = withOnly('recording_fault', 'recording_fault_kind', 'recording_fault_column');
  const spanS = ({ elapsedS }: JobReadings) => elapsedS[elapsedS.length - 1] - elapsedS[0];
  /** The values of a column where they are other ones than before. */
  const changedTo = (now: Float64Array, then: Float64Array) => now.filter((value, row) => !Object.is(value, then[row]));
  const isHeld = (now: JobReadings, then: JobReadings, column: string) => {
    const changed = changedTo(columnOf(column, now), columnOf(column, then));
    return changed.length >= 20 && new Set(changed).size === 1;
  };
  const columnOf = (name: string, readings: JobReadings) =>
    Object.entries(readings).find(([own]) => readingColumnOf(own as keyof JobReadings) === name)?.[1] ??
    new Float64Array();
  const isThere: Record<FaultKind, (now: JobReadings, then: JobReadings, column: string) => boolean> = {
    'clock-ahead': (now, then) => spanS(now) > spanS(then) + 250,
    'clock-back': (now, then) => spanS(now) < spanS(then) && now.elapsedS.length <= then.elapsedS.length,
    'left-out': (now, then) => now.elapsedS.length < then.elapsedS.length && spanS(now) === spanS(then),
    hangs: isHeld,
    clipped: isHeld,
    unit: (now, then, column) =>
      column.split('+').every((one) => median(read(columnOf(one, now))) !== median(read(columnOf(one, then)))),
    'time-unit': (now, then) => [1 / 60, 1000].some((ratio) => Math.abs(spanS(now) / spanS(then) / ratio - 1) < 1e-9),
  };

  test('shows in the readings, whose times still rise', () => {
    expect(new Set(faulty.map(({ job }) => job.truth.recording_fault_kind)).size).toBe(7);
    for (const { job, before } of faulty) {
      const { recording_fault: name, recording_fault_kind: kind, recording_fault_column: column = '' } = job.truth;
      const now = readingsOf(job);
      const shows = isThere[kind as FaultKind](now, readingsOf(before), column);
      const rises = now.elapsedS.every((atS, row) => row === 0 || atS > now.elapsedS[row - 1]);
      expect([job.job.job_id, name, shows, rises]).toEqual([job.job.job_id, name, true, true]);
    }
  });

  test('leaves the marks of the source on the rows that they were on', () => {
    const shifted = faulty.filter(
      ({ job, before }) => job.truth.recording_fault_kind === 'time-unit' && before.marks.length > 0,
    );
    const ahead = faulty.filter(
      ({ job, before }) => job.truth.recording_fault_kind === 'clock-ahead' && before.marks.length > 0,
    );
    expect(shifted.length + ahead.length).toBeGreaterThan(1);
    for (const { job, before } of [...shifted, ...ahead]) {
      const rowsOf = ({ marks, readings }: SimulatedJob) =>
        marks
          .map(({ fromS, mark }) => [readings?.elapsedS.findIndex((atS) => atS >= fromS), mark])
          .filter(([row], at, all) => row !== all[at + 1]?.[0] && row !== -1);
      expect(rowsOf(job)).toEqual(rowsOf(before));
    }
  });
});

describe('what is in a log and not in what the technician saw', () => {
  const valveOffRow = ({ readings, truth }: SimulatedJob) =>
    readings?.elapsedS.findLastIndex((atS) => atS <= (truth.isolation_start_s ?? 0)) ?? 0;

  test('rises that no model knows differ after valve-off only, and by what their parts say', () => {
    const jobs = withOnly('unmodelled', 'rise_shape_also').filter(({ job }) => job.job.gauge_id !== 'gauge-13');
    expect(jobs.length).toBeGreaterThan(30);
    const sum = ({ truth: { rise_leak_pa = 0, rise_vapour_pa = 0, rise_settling_pa = 0 } }: SimulatedJob) =>
      rise_leak_pa + rise_vapour_pa + rise_settling_pa;
    for (const { job, before } of jobs.filter(({ job: { truth } }) => truth.pulls === 1)) {
      const row = valveOffRow(job) + 1;
      const [now, then] = [readingsOf(job).vacuumPa, readingsOf(before).vacuumPa];
      expect(Array.from(now.subarray(0, row))).toEqual(Array.from(then.subarray(0, row)));
      // Over the last readings of the isolation noise, lag and steps leave little.
      const end = readingsOf(job).elapsedS.findLastIndex((atS) => atS <= (job.truth.isolation_end_s ?? 0));
      const meanOf = (values: Float64Array) => median(read(values.subarray(end - 6, end + 1)));
      const addedPa = sum(job) - sum(before);
      const gain = job.truth.gauge_gain_ratio ?? 1;
      const level = meanOf(then) / gain;
      expect(Math.abs((meanOf(now) - meanOf(then)) / gain - addedPa)).toBeLessThan(
        0.03 * level + 0.2 * Math.abs(addedPa) + 3,
      );
    }
    const largest = jobs.map(
      ({ job, before }) => Math.abs(sum(job) - sum(before)) / (job.truth.isolation_start_pa ?? 1),
    );
    expect(median(largest)).toBeGreaterThan(0.01);
  });

  test('gauges that age read more and more, or less and less', () => {
    const jobs = withOnly('gauge_drift_ratio');
    expect(jobs.length).toBeGreaterThan(60);
    const offs: number[] = [];
    for (const { job, before } of jobs) {
      const drift = job.truth.gauge_drift_ratio ?? 0;
      expect(Math.sign(drift)).toBe(Math.sign(ageingGauges.get(job.job.gauge_id ?? '')?.perYearRatio ?? 0));
      expect(job.truth.gauge_gain_ratio).toBeCloseTo((before.truth.gauge_gain_ratio ?? 0) * (1 + drift), 12);
      const [now, then] = [readingsOf(job).vacuumPa, readingsOf(before).vacuumPa];
      const ratios = Array.from(now, (pa, row) => pa / then[row]).filter((ratio, row) => ratio > 0 && then[row] > 100);
      if (ratios.length > 50) offs.push(median(ratios) - 1 - drift);
    }
    // Under way they walk.
    expect(Math.max(...offs.map(Math.abs))).toBeLessThan(0.08);
    expect(Math.abs(median(offs))).toBeLessThan(0.006);
    expect(median(offs.map(Math.abs))).toBeGreaterThan(0.001);
  });

  test('a lent gauge logs in its own steps, and ends where its range does', () => {
    const jobs = withOnly('gauge_id');
    expect(jobs.length).toBeGreaterThan(10);
    for (const { job } of jobs) {
      const gauge = lentGauges.find(({ gaugeId }) => gaugeId === job.job.gauge_id);
      const shown = read(readingsOf(job).vacuumPa).filter(Number.isFinite);
      const off = shown.map((pa) => pa / (gauge?.stepPa ?? 0)).map((steps) => Math.abs(steps - Math.round(steps)));
      expect(Math.max(...off)).toBeLessThan(1e-6);
      expect(Math.max(...shown)).toBeLessThanOrEqual((gauge?.rangeMaxPa ?? 0) * 1.01);
      expect(job.job.gauge_step_pa).toBeCloseTo(gauge?.stepPa ?? 0, 5);
    }
  });

  test('where the circuit warms the clamp shows it', () => {
    const jobs = withOnly('circuit_drift_k_per_s').filter(({ job }) => job.truth.run_start_s === undefined);
    let seen = 0;
    for (const { job, before } of jobs) {
      const { elapsedS, vacuumPa, lineC } = readingsOf(job);
      const last = vacuumPa.findLastIndex((pa) => !Number.isNaN(pa));
      const first = vacuumPa.findIndex((pa) => !Number.isNaN(pa));
      if (Number.isNaN(lineC[last])) continue;
      const warmerK = (at: number) => lineC[at] - readingsOf(before).lineC[at];
      const ranS = elapsedS[last] - elapsedS[first];
      expect(Math.abs(warmerK(last) - warmerK(first) - (job.truth.circuit_drift_k_per_s ?? 0) * ranS)).toBeLessThan(
        0.35,
      );
      seen += 1;
    }
    expect(seen).toBeGreaterThan(2);
  });

  test('another refrigerant shows in the pressures of the run alone', () => {
    const jobs = withOnly('true_refrigerant').filter(({ before }) => !otherRefrigerant(before));
    expect(jobs.length).toBeGreaterThan(1);
    const ran = jobs.filter(({ job }) => job.truth.run_start_s !== undefined);
    for (const { job, before } of ran)
      expect(read(readingsOf(job).suctionPa ?? [])).not.toEqual(read(readingsOf(before).suctionPa ?? []));
    for (const { job, before } of jobs)
      expect(read(readingsOf(job).vacuumPa)).toEqual(read(readingsOf(before).vacuumPa));
  });
});
