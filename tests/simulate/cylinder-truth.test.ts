import { describe, expect, test } from 'vitest';
import type { Weighing } from '../../src/records/tables/weighings.ts';
import type { CylinderTruth } from '../../src/simulate/cylinder-truth.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';

// A rare log keeps the year quick to draw; the cylinders do not depend on it.
const fleet = simulateFleet({ jobs: 1600, seed: 4, intervalS: 60 });
const jobs = [...fleet.jobs()].map(({ job, weighings, truth, readings }) => ({
  job,
  weighings,
  truth,
  logged: readings !== undefined,
}));
const planted = fleet.cylinderTruth();
const cylinders = fleet.cylinders();
const weighings = [...jobs.flatMap((one) => one.weighings), ...fleet.plant.weighings];
const byId = new Map(weighings.map((row) => [row.weighing_id, row]));
const of = (kind: CylinderTruth['kind']) => planted.filter((one) => one.kind === kind);
const swappedFrom = new Map(of('swapped').map((one) => [one.weighing_id, one.cylinder_id]));
const unnamed = new Map(of('unnamed').map((one) => [one.weighing_id, one.cylinder_id]));
const trueCylinder = ({ weighing_id, cylinder_id }: Weighing) =>
  swappedFrom.get(weighing_id) ?? unnamed.get(weighing_id) ?? cylinder_id;
const written = (one: CylinderTruth) => byId.get(one.weighing_id ?? '') as Weighing;

describe('cylinders', () => {
  test('a supply cylinder gives what was drawn, loses what was lost, and is closed with the rest', () => {
    let seen = 0;
    for (const cylinder of cylinders) {
      const { cylinder_id: id, kind, net_kg = 0, closing_kg } = cylinder;
      if (kind !== 'supply' || closing_kg === undefined || id.startsWith('plant')) continue;
      const own = jobs.filter((one) => one.weighings.some((row) => trueCylinder(row) === id));
      const charged = own.map((one) => one.weighings.filter(({ direction }) => direction === 'in'));
      // Where a cylinder was changed in mid-charge, nobody knows how much came from which.
      if (charged.some((rows) => rows.some((row) => trueCylinder(row) !== id))) continue;
      const drawnKg = own.reduce((sum, { truth }) => sum + (truth.drawn_kg ?? 0), 0);
      const lostKg = of('lost').reduce((sum, one) => sum + (one.cylinder_id === id ? one.kg : 0), 0);
      expect(Math.abs(net_kg - drawnKg - lostKg - closing_kg)).toBeLessThan(0.00501);
      seen++;
    }
    expect(seen).toBeGreaterThan(50);
  });

  test('a plant cylinder gives what was weighed, and is closed with the rest', () => {
    let seen = 0;
    for (const { cylinder_id: id, net_kg = 0, closing_kg } of fleet.plant.cylinders) {
      if (closing_kg === undefined) continue;
      const own = fleet.plant.weighings.filter((row) => trueCylinder(row) === id);
      const gainedKg = own.reduce((sum, { start_kg = 0, end_kg = 0 }) => sum + end_kg - start_kg, 0);
      // The scale rests at one figure from the end of a weighing to the start of the next.
      expect(Math.abs(net_kg + gainedKg - closing_kg)).toBeLessThan(0.035);
      seen++;
    }
    expect(seen).toBeGreaterThan(8);
  });

  test('what was recovered rose the scale by as much, before the charge', () => {
    let seen = 0;
    for (const { job, weighings: rows } of jobs) {
      const recovered = rows.filter(({ purpose }) => purpose === 'recovery');
      expect(recovered.map(({ start_kg = 0, end_kg = 0 }) => Math.round((end_kg - start_kg) * 1e4) / 1e4)).toEqual(
        job.recovered_kg === undefined ? [] : [job.recovered_kg],
      );
      const [row] = recovered;
      if (row === undefined) continue;
      expect([row.weighing_id, row.direction, row.refrigerant, row.system_id]).toEqual([
        `weighing-${job.job_id.slice(4)}-r`,
        'out',
        job.refrigerant,
        job.system_id,
      ]);
      const atMs = Date.parse(row.at ?? '');
      expect(atMs).toBeGreaterThan(Date.parse(job.started_at));
      for (const { at = '', direction } of rows) if (direction === 'in') expect(Date.parse(at)).toBeGreaterThan(atMs);
      seen++;
    }
    expect(seen).toBeGreaterThan(250);
  });

  test('a recovery cylinder holds all that was put in, and no more than it may unless that is planted', () => {
    const overfilled = new Map(of('overfilled').map((one) => [one.cylinder_id, one]));
    let closed = 0;
    for (const cylinder of cylinders) {
      const { cylinder_id: id, tare_kg = 0, capacity_kg = 0, closing_kg } = cylinder;
      if (cylinder.kind !== 'recovery' || id.startsWith('plant')) continue;
      const rows = weighings.filter((row) => trueCylinder(row) === id);
      let grossKg = tare_kg;
      for (const { start_kg, end_kg = 0 } of rows) {
        expect(start_kg).toBeCloseTo(grossKg, 6);
        grossKg = end_kg;
      }
      const times = rows.map(({ at = '' }) => Date.parse(at));
      expect(times.toSorted((a, b) => a - b)).toEqual(times);
      expect(cylinder.net_kg).toBe(0);
      expect(cylinder.cost).toBeUndefined();
      if (closing_kg !== undefined) {
        expect(closing_kg).toBeCloseTo(grossKg - tare_kg, 6);
        closed++;
      }
      const overKg = grossKg - tare_kg - capacity_kg;
      if (overKg > 1e-6) expect(overfilled.get(id)?.kg).toBeCloseTo(overKg, 6);
      else expect(overfilled.has(id)).toBe(false);
    }
    expect(closed).toBeGreaterThan(20);
    expect(overfilled.size).toBeGreaterThan(0);
    expect(overfilled.size).toBeLessThan(closed / 8);
  });

  test('every kind is planted, none often', () => {
    const supply = cylinders.filter(({ cylinder_id }) => cylinder_id.startsWith('cylinder')).length;
    const charged = jobs.flatMap((one) => one.weighings).length;
    expect(of('lost').length).toBeGreaterThan(0);
    expect(of('lost').length).toBeLessThan(0.05 * supply);
    for (const kind of ['mistyped', 'swapped'] as const) {
      expect(of(kind).length).toBeGreaterThan(0.001 * charged);
      expect(of(kind).length).toBeLessThan(0.012 * charged);
    }
    expect(of('unnamed')).toHaveLength(3);
    expect(of('early')).toHaveLength(1);
  });

  test('a loss lies between two weighings, and the scale shows it from then on', () => {
    for (const { cylinder_id, at, kg } of of('lost')) {
      expect(kg).toBeGreaterThanOrEqual(0.3);
      expect(kg).toBeLessThanOrEqual(3);
      const own = weighings
        .filter((row) => trueCylinder(row) === cylinder_id)
        .toSorted((a, b) => Date.parse(a.at ?? '') - Date.parse(b.at ?? ''));
      const after = own.findIndex((row) => Date.parse(row.at ?? '') > Date.parse(at));
      expect(after).not.toBe(0);
      const { net_kg = 0, tare_kg = 0, closing_kg } = cylinders.find((row) => row.cylinder_id === cylinder_id) ?? {};
      // A display that was set to 0 tells nothing of what the cylinder weighs.
      const gross = own.slice(after).filter(({ start_kg = 0 }) => start_kg > tare_kg);
      for (const { start_kg = 0 } of after < 0 ? [] : gross) {
        expect(start_kg).toBeLessThan(tare_kg + net_kg - kg + 0.1);
      }
      if (closing_kg !== undefined) expect(closing_kg).toBeLessThan(net_kg - kg);
    }
  });

  test('a mistyped weighing has one wrong figure; the job and the truth have the right one', () => {
    for (const one of of('mistyped')) {
      const { start_kg = 0, end_kg = 0, cylinder_id, at } = written(one);
      const { true_start_kg = 0, true_end_kg = 0 } = one;
      expect([cylinder_id, at]).toEqual([one.cylinder_id, one.at]);
      expect(one.kg).not.toBe(0);
      expect([start_kg - true_start_kg, end_kg - true_end_kg].filter((kg) => kg !== 0)).toHaveLength(1);
      expect(start_kg - true_start_kg + end_kg - true_end_kg).toBeCloseTo(one.kg, 3);
      const job = jobs.find(({ weighings: rows }) => rows.some((row) => row.weighing_id === one.weighing_id));
      const dropKg = (job?.weighings ?? []).reduce((sum, row) => {
        if (row.direction !== 'in') return sum;
        const isWrong = row.weighing_id === one.weighing_id;
        return sum + (isWrong ? true_start_kg - true_end_kg : (row.start_kg ?? 0) - (row.end_kg ?? 0));
      }, 0);
      expect(Math.abs(dropKg - (job?.truth.drawn_kg ?? 0))).toBeLessThan(0.15);
    }
  });

  test('a swapped weighing is written for a cylinder of the same refrigerant that another technician has open', () => {
    for (const one of of('swapped')) {
      const { cylinder_id, start_kg = 0, end_kg = 0, job_id, at = '' } = written(one);
      expect(cylinder_id).toBe(one.other_cylinder_id);
      expect(cylinder_id).not.toBe(one.cylinder_id);
      expect([one.true_start_kg, one.true_end_kg]).toEqual([start_kg, end_kg]);
      const [mine, other] = [one.cylinder_id, cylinder_id].map((id) => cylinders.find((row) => row.cylinder_id === id));
      expect([other?.refrigerant, other?.kind]).toEqual([mine?.refrigerant, mine?.kind]);
      expect(at.slice(0, 10) >= (other?.acquired_on ?? '')).toBe(true);
      expect(at.slice(0, 10) <= (other?.closed_on ?? '9999')).toBe(true);
      const technicianOf = (id: string | undefined) => jobs.find(({ job }) => job.job_id === id)?.job.technician_id;
      const others = weighings
        .filter((row) => trueCylinder(row) === cylinder_id)
        .map((row) => technicianOf(row.job_id));
      expect(others.length).toBeGreaterThan(0);
      expect(others).not.toContain(technicianOf(job_id));
    }
  });

  test('an unnamed weighing has no cylinder, an early one lies before its cylinder came; no other does', () => {
    expect(weighings.filter((row) => row.cylinder_id === undefined).map((row) => row.weighing_id)).toEqual(
      of('unnamed').map((one) => one.weighing_id),
    );
    const cameOn = new Map(cylinders.map((row) => [row.cylinder_id, row.acquired_on ?? '']));
    const before = weighings.filter((row) => (row.at ?? '').slice(0, 10) < (cameOn.get(trueCylinder(row) ?? '') ?? ''));
    expect(before.map((row) => row.weighing_id)).toEqual(of('early').map((one) => one.weighing_id));
  });
});
