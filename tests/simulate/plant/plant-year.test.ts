import { describe, expect, test } from 'vitest';
import { tableNamed } from '../../../src/records/tables.ts';
import type { Repair } from '../../../src/records/tables/repairs.ts';
import type { Weighing } from '../../../src/records/tables/weighings.ts';
import { plantAppliances } from '../../../src/simulate/plant/plant-appliances.ts';
import { noPlant, simulatePlantYear } from '../../../src/simulate/plant/plant-year.ts';
import { simulateFleet } from '../../../src/simulate/fleet.ts';

const seeds = [1, 2, 3, 4, 5, 6];
const massKg = ({ start_kg = 0, end_kg = 0 }: Weighing) => Math.abs(start_kg - end_kg);
const sumKg = (rows: readonly Weighing[]) => rows.reduce((sum, row) => sum + massKg(row), 0);
const dayOf = (date: string) => Date.parse(date.slice(0, 10)) / 86_400_000;

test('equal seeds give equal rows, other seeds other ones', () => {
  expect(simulatePlantYear(7)).toEqual(simulatePlantYear(7));
  expect(simulatePlantYear(7).weighings).not.toEqual(simulatePlantYear(8).weighings);
  expect(simulatePlantYear(7).appliances).toEqual(simulatePlantYear(8).appliances);
});

test('small fleets have no plant unless asked for, large ones all have the same', () => {
  expect(simulateFleet({ jobs: 49, seed: 2 }).plant).toBe(noPlant);
  expect(simulateFleet({ jobs: 50, seed: 2 }).plant).toEqual(simulatePlantYear(2));
  expect(simulateFleet({ jobs: 5000, seed: 2 }).plant).toEqual(simulatePlantYear(2));
  expect(simulateFleet({ jobs: 3, seed: 2, withPlant: true }).plant).toEqual(simulatePlantYear(2));
  expect(simulateFleet({ jobs: 60, seed: 2, withPlant: false }).plant).toBe(noPlant);
});

test('the charges lie on both sides of 15, 50, 500 and 1500 lb', () => {
  expect(plantAppliances).toHaveLength(24);
  const bounds = [0, 15, 50, 500, 1500, 5000].map((pounds) => pounds * 0.45359237);
  const counts = bounds
    .slice(1)
    .map(
      (upperKg, index) =>
        plantAppliances.filter(({ fullChargeKg }) => fullChargeKg >= bounds[index] && fullChargeKg < upperKg).length,
    );
  for (const count of counts) expect(count).toBeGreaterThan(1);
});

test('some records are as real ones are', () => {
  const { appliances } = simulatePlantYear(1);
  expect(appliances.filter(({ full_charge_kg }) => full_charge_kg === undefined)).toHaveLength(1);
  expect(appliances.filter(({ jurisdiction }) => jurisdiction === undefined)).toHaveLength(1);
  expect(appliances.filter(({ refrigerant }) => refrigerant === 'R-999Z')).toHaveLength(1);
});

describe.each(seeds)('a year of plant, seed %d', (seed) => {
  const year = simulatePlantYear(seed);
  const { appliances, weighings, repairs, inspections, cylinders, applianceTruth } = year;
  const of = (systemId: string, purpose: Weighing['purpose'], direction: Weighing['direction'] = 'in') =>
    weighings.filter((row) => row.system_id === systemId && row.purpose === purpose && row.direction === direction);

  test('every row holds to its schema, and its keys are unique', () => {
    for (const [name, rows] of Object.entries({ appliances, weighings, repairs, inspections, cylinders })) {
      const table = tableNamed(name);
      if (table === undefined) throw new Error(`no table ${name}`);
      expect(rows.length).toBeGreaterThan(10);
      for (const row of rows) expect(() => table.schema.parse(row)).not.toThrow();
      const keys = rows.map((row) => JSON.stringify(table.key.map((key) => (row as Record<string, unknown>)[key])));
      expect(new Set(keys).size).toBe(rows.length);
    }
    expect(weighings.every(({ job_id, system_id }) => job_id === undefined && system_id !== undefined)).toBe(true);
  });

  test('what is added makes up for most of what is lost, and never for more', () => {
    expect(applianceTruth.map(({ system_id }) => system_id)).toEqual(appliances.map(({ system_id }) => system_id));
    for (const { system_id, added_kg, lost_kg, leak_kg_per_year } of applianceTruth) {
      const rows = of(system_id, 'leak');
      expect(Math.abs(sumKg(rows) - added_kg)).toBeLessThanOrEqual(0.05 * rows.length + 1e-9);
      expect(added_kg).toBeLessThanOrEqual(lost_kg + 1e-9);
      // Nobody adds a few grams.
      if (lost_kg > 0.6) expect(added_kg).toBeGreaterThan(0.45 * lost_kg);
      expect(lost_kg).toBeLessThanOrEqual(leak_kg_per_year + 1e-9);
    }
  });

  test('rates fall by repairs, and stay without', () => {
    for (const [index, { system_id, lost_kg, leak_kg_per_year }] of applianceTruth.entries()) {
      const { event, loss, leaks } = plantAppliances[index];
      const dates = repairs.flatMap((row) => (row.system_id === system_id ? (row.repaired_on ?? []) : []));
      const tightDays = dayOf('2026-06-30') - dayOf(dates.at(-1) ?? '2026-06-30');
      // Seven tenths of a rate go with a repair, or more; a leaker that is beyond repair loses nearly as much as before.
      const leastRatio = loss === 'chronic' || dates.length < leaks.length ? 0 : (0.7 * tightDays) / 365;
      if (dates.length > 0) expect(lost_kg).toBeLessThan((1 - leastRatio) * leak_kg_per_year);
      else if (event?.kind !== 'install') expect(lost_kg).toBeCloseTo(leak_kg_per_year, 6);
      else expect(lost_kg).toBeLessThan(0.8 * leak_kg_per_year);
    }
  });

  test('most lose little; one loses more than its charge, within one calendar year', () => {
    const ratios = applianceTruth.map(
      ({ leak_kg_per_year }, index) => leak_kg_per_year / plantAppliances[index].fullChargeKg,
    );
    expect(ratios.filter((ratio) => ratio >= 0.01 && ratio <= 0.08).length).toBeGreaterThan(12);
    expect(ratios.filter((ratio) => ratio >= 0.15 && ratio <= 0.6).length).toBeGreaterThan(5);
    const chronic = ratios.findIndex((ratio) => ratio >= 1.3 && ratio <= 1.8);
    const late = of(appliances[chronic].system_id, 'leak').filter(({ at = '' }) => at.startsWith('2026'));
    expect(sumKg(late)).toBeGreaterThan(1.25 * plantAppliances[chronic].fullChargeKg);
  });

  test('what is put away in autumn comes back in spring, and no more', () => {
    const [seasonal] = appliances.filter(({ system_id }) => of(system_id, 'seasonal').length > 0);
    const [out, back] = [of(seasonal.system_id, 'seasonal', 'out'), of(seasonal.system_id, 'seasonal')];
    expect([out.length, back.length]).toEqual([1, 1]);
    expect(sumKg(back)).toBeLessThanOrEqual(sumKg(out));
    expect(sumKg(back)).toBeGreaterThan(0.9 * sumKg(out));
    expect(back[0].cylinder_id).toBe(out[0].cylinder_id);
    expect([out[0].at?.slice(5, 7), back[0].at?.slice(5, 7)]).toEqual(['10', '04']);
    expect(out[0].end_kg).toBeGreaterThan(out[0].start_kg ?? 0);
  });

  test('one is put up with its full charge, and one is filled with another refrigerant', () => {
    const [installed] = appliances.filter(({ system_id }) => of(system_id, 'install').length > 0);
    expect(sumKg(of(installed.system_id, 'install'))).toBeCloseTo(installed.full_charge_kg ?? 0, 0);
    expect(of(installed.system_id, 'install')[0].at?.slice(0, 10)).toBe(installed.installed_on);
    const [changed] = appliances.filter(({ system_id }) => of(system_id, 'retrofit').length > 0);
    const filled = of(changed.system_id, 'retrofit');
    const recovered = of(changed.system_id, 'recovery', 'out');
    expect(recovered).toHaveLength(1);
    expect(Date.parse(recovered[0].at ?? '')).toBeLessThan(Date.parse(filled[0].at ?? ''));
    expect([recovered[0].refrigerant, filled[0].refrigerant]).toEqual(['R-22', changed.refrigerant]);
    expect(sumKg(filled)).toBeCloseTo(changed.full_charge_kg ?? 0, 0);
    for (const { refrigerant, at = '' } of of(changed.system_id, 'leak')) {
      expect(refrigerant).toBe(at < (filled[0].at ?? '') ? 'R-22' : changed.refrigerant);
    }
  });

  test('weighings are gross, in steps of 0.05 kg, and in the order of time on each cylinder', () => {
    const held = new Map(cylinders.map((row) => [row.cylinder_id, row]));
    const lastAt = new Map<string, string>();
    for (const { cylinder_id, refrigerant, start_kg = 0, end_kg = 0, at = '' } of weighings) {
      for (const kg of [start_kg, end_kg]) expect(kg * 20).toBeCloseTo(Math.round(kg * 20), 6);
      expect(start_kg).not.toBe(end_kg);
      if (cylinder_id === undefined) continue;
      const cylinder = held.get(cylinder_id);
      const { tare_kg = 0, capacity_kg = 0 } = cylinder ?? {};
      expect(cylinder?.refrigerant).toBe(refrigerant);
      expect(Math.min(start_kg, end_kg)).toBeGreaterThanOrEqual(tare_kg);
      expect(Math.max(start_kg, end_kg)).toBeLessThanOrEqual(tare_kg + capacity_kg + 0.05);
      expect(at > (lastAt.get(cylinder_id) ?? '')).toBe(true);
      lastAt.set(cylinder_id, at);
    }
  });

  test('repairs come in their order, some late, some without a follow-up, some never; one stops a process', () => {
    const toDays = (row: Repair) => dayOf(row.repaired_on ?? '') - dayOf(row.leak_found_on ?? '');
    for (const row of repairs) {
      const dates = [
        row.leak_found_on,
        row.repaired_on,
        row.initial_verified_on,
        row.normal_operation_on,
        row.followup_verified_on,
      ];
      const known = dates.filter((date) => date !== undefined);
      expect(known.toSorted()).toEqual(known);
      expect(row.cost === undefined).toBe(row.repaired_on === undefined);
      const own = weighings.filter(({ leak_id }) => leak_id === row.leak_id);
      expect(own.length).toBeGreaterThan(0);
      for (const { system_id, at = '' } of own) {
        expect(system_id).toBe(row.system_id);
        expect(at.slice(0, 10) >= (row.leak_found_on ?? '')).toBe(true);
        expect(at.slice(0, 10) <= (row.repaired_on ?? '9999')).toBe(true);
      }
    }
    const done = repairs.filter(({ repaired_on }) => repaired_on !== undefined);
    expect(done.some((row) => toDays(row) > 30)).toBe(true);
    expect(done.some((row) => toDays(row) <= 30)).toBe(true);
    expect(done.some((row) => row.followup_verified_on === undefined)).toBe(true);
    expect(done.some((row) => row.followup_verified_on !== undefined)).toBe(true);
    expect(repairs.length).toBeGreaterThan(done.length);
    expect(repairs.filter(({ shutdown }) => shutdown)).toHaveLength(1);
    const shared = repairs.filter((row) => weighings.filter(({ leak_id }) => leak_id === row.leak_id).length > 1);
    expect(shared.length).toBeGreaterThan(0);
    expect(weighings.some(({ leak_id, purpose }) => purpose === 'leak' && leak_id === undefined)).toBe(true);
  });

  test('an inspection finds a leak while one is there', () => {
    for (const { system_id, inspected_on, leak_found } of inspections) {
      const isThere = repairs.some(
        (row) =>
          row.system_id === system_id &&
          (row.leak_found_on ?? '') <= inspected_on &&
          (row.repaired_on ?? '9999') > inspected_on,
      );
      expect(leak_found).toBe(isThere);
    }
    expect(new Set(inspections.map(({ leak_found }) => leak_found))).toEqual(new Set([true, false]));
  });
});
