import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { nitrogenPressureAfter, standardAtmosphere } from '../../src/physics/index.ts';
import { crews } from '../../src/simulate/crews.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { simulateJobLog } from '../../src/simulate/job-log.ts';
import { leakUnderPressure } from '../../src/simulate/leak-under-pressure.ts';
import { simulatePressureTest } from '../../src/simulate/pressure-test-log.ts';
import { drawSystem } from '../../src/simulate/system.ts';
import { technicians } from '../../src/simulate/technicians.ts';
import { testGaugeOf } from '../../src/simulate/test-gauges.ts';
import { simulateVacuumLog } from '../../src/simulate/vacuum-log.ts';

const PSI_PA = 6894.757293168;
const jobs = [...simulateFleet({ jobs: 900, seed: 11 }).jobs()];
const opened = jobs.filter(({ job }) => job.charge_basis !== 'top-up');
const tested = opened.flatMap(({ readings, truth, ...one }) => {
  const { pressure_hold_start_s: startS, pressure_hold_end_s: endS } = truth;
  if (readings === undefined || startS === undefined || endS === undefined) return [];
  const count = readings.testPa.findLastIndex((pa) => !Number.isNaN(pa)) + 1;
  const elapsedS = readings.elapsedS.subarray(0, count);
  const held = {
    from: elapsedS.findIndex((atS) => atS >= startS),
    settled: elapsedS.findIndex((atS) => atS >= Math.min(startS + 300, (startS + endS) / 2)),
    to: elapsedS.findLastIndex((atS) => atS <= endS),
  };
  return [{ ...one, readings, truth, count, held, startS, endS }];
});
type Tested = (typeof tested)[0];

function share<One>(of: readonly One[], is: (one: One) => boolean): number {
  return of.filter(is).length / of.length;
}

const byTechnician = <One extends { readonly job: { readonly technician_id?: string | undefined } }>(
  of: readonly One[],
  technicianId: string,
) => of.filter(({ job }) => job.technician_id === technicianId);

describe('the pressure tests of a fleet', () => {
  // Planned: 7 % skipped but by one technician of twelve, 10 % not logged, 4 % of the jobs without any log.
  test('most jobs that open the circuit log one, some skip it, some leave no log', () => {
    const planned: [string, number, number][] = [
      ['logged', 0.74, 0.84],
      ['unlogged', 0.09, 0.16],
      ['skipped', 0.07, 0.14],
    ];
    for (const [word, low, high] of planned) {
      const found = share(opened, ({ truth }) => truth.pressure_test === word);
      expect([word, found > low && found < high]).toEqual([word, true]);
    }
    expect(tested.length).toBe(opened.filter(({ truth }) => truth.pressure_test === 'logged').length);
  });

  test('the record says what was asked in about 85 of 100 jobs, and what the system is rated for in 35', () => {
    const asked = share(opened, ({ job }) => job.test_pressure_target_pa !== undefined);
    const rated = share(opened, ({ job }) => job.design_high_pa !== undefined);
    expect(Math.abs(asked - 0.85)).toBeLessThan(0.05);
    expect(Math.abs(rated - 0.35)).toBeLessThan(0.06);
    for (const { job } of opened) {
      expect(job.test_pressure_hold_s === undefined).toBe(job.test_pressure_target_pa === undefined);
      expect(job.design_low_pa ?? 0).toBeLessThanOrEqual(job.design_high_pa ?? 0);
    }
    const psig = opened.flatMap(({ job: { test_pressure_target_pa, altitude_m = 0 } }) =>
      test_pressure_target_pa === undefined
        ? []
        : [(test_pressure_target_pa - standardAtmosphere(altitude_m)) / PSI_PA],
    );
    expect(Math.min(...psig)).toBeGreaterThan(180);
    expect(Math.max(...psig)).toBeLessThan(551);
  });

  test('clamps are logged in about 70 of 100, staged are about 30, some are mended, some stand overnight', () => {
    expect(Math.abs(share(tested, ({ truth }) => truth.pressure_clamp === true) - 0.7)).toBeLessThan(0.06);
    const once = tested.filter(({ truth }) => truth.pressure_mended === false);
    expect(Math.abs(share(once, ({ truth }) => (truth.pressure_stages ?? 0) > 1) - 0.3)).toBeLessThan(0.06);
    expect(share(tested, ({ truth }) => truth.pressure_mended === true)).toBeGreaterThan(0.02);
    const overnight = tested.filter(({ startS, endS }) => endS - startS > 12 * 3600);
    expect(overnight.length).toBeGreaterThan(10);
    for (const { job, endS } of overnight) {
      expect(endS).toBeLessThan(26 * 3600);
      expect(Date.parse(job.ended_at ?? '') - Date.parse(job.started_at)).toBeGreaterThan(endS * 1000);
    }
    // The clamp of the test is that of the vacuum.
    for (const { readings, truth, count, job } of tested) {
      expect(Number.isNaN(readings.lineC[0])).toBe(truth.pressure_clamp === false);
      expect(Number.isNaN(readings.lineC[count])).toBe(truth.pressure_clamp === false);
      // A run test has clamps of its own.
      if (truth.run_pattern !== undefined) continue;
      expect(job.clamp_accuracy_k === undefined).toBe(truth.pressure_clamp === false);
    }
  });

  test('who skips, who tests short and who tests too high stand out', () => {
    const skips = (id: string) => share(byTechnician(opened, id), ({ truth }) => truth.pressure_test === 'skipped');
    expect(skips('t06')).toBeGreaterThan(3 * skips('t01'));
    expect(skips('t06')).toBeGreaterThan(0.3);
    const short = ({ job, startS, endS }: Tested) => endS - startS < 0.9 * (job.test_pressure_hold_s ?? 0);
    const shortOf = (id: string) => share(byTechnician(tested, id), short);
    expect(shortOf('t04')).toBeGreaterThan(0.35);
    expect(shortOf('t04')).toBeGreaterThan(
      3 *
        share(
          tested.filter(({ job }) => job.technician_id !== 't04'),
          short,
        ),
    );
    const rated = tested.filter(({ job }) => job.design_low_pa !== undefined);
    const over = ({ readings, count, job }: Tested) =>
      Math.max(...readings.testPa.subarray(0, count)) > 1.1 * (job.design_low_pa ?? 0);
    expect(share(byTechnician(rated, 't07'), over)).toBeGreaterThan(0.3);
    expect(
      share(
        rated.filter(({ job }) => job.technician_id !== 't07'),
        over,
      ),
    ).toBeLessThan(0.05);
  });
});

describe('the log of a pressure test', () => {
  test('lies before the vacuum, with a gap without rows between', () => {
    for (const { readings, truth, count, endS } of tested) {
      const { elapsedS, testPa, vacuumPa, scaleKg } = readings;
      expect(testPa.subarray(0, count).some(Number.isNaN)).toBe(false);
      expect(vacuumPa.subarray(0, count).every(Number.isNaN)).toBe(true);
      expect(scaleKg.subarray(0, count).every(Number.isNaN)).toBe(true);
      expect(elapsedS[0]).toBe(0);
      expect(elapsedS[count] - elapsedS[count - 1]).toBeGreaterThan(100);
      expect(endS).toBeLessThan(elapsedS[count]);
      expect(truth.isolation_start_s ?? Number.POSITIVE_INFINITY).toBeGreaterThan(elapsedS[count]);
    }
  });

  test('is marked where the source sets marks, and only it is', () => {
    const marked = tested.filter(({ marks }) => marks.length > 0);
    expect(marked.length).toBeGreaterThan(200);
    for (const { marks, readings, count } of marked) {
      const markAt = (atS: number) => marks.findLast(({ fromS }) => fromS <= atS)?.mark;
      expect(markAt(readings.elapsedS[0])).toBe('pressure-test');
      expect(markAt(readings.elapsedS[count - 1])).toBe('pressure-test');
      expect(markAt(readings.elapsedS[count])).not.toBe('pressure-test');
      expect(marks.filter(({ mark }) => mark === 'pressure-test')).toHaveLength(1);
    }
  });

  test('shows the steps of its gauge, in some hundred readings', () => {
    for (const { job, readings, count, startS, endS } of tested) {
      const { stepPa } = testGaugeOf(job.technician_id ?? '', endS - startS);
      const offStep = (pa: number) =>
        Math.abs((pa - readings.testPa[0]) / stepPa - Math.round((pa - readings.testPa[0]) / stepPa));
      expect(Math.max(...readings.testPa.subarray(0, count).map(offStep))).toBeLessThan(1e-6);
    }
    const counts = tested.map(({ count }) => count).sort((a, b) => a - b);
    expect(counts[Math.floor(counts.length * 0.5)]).toBeLessThan(300);
    expect(counts.at(-1)).toBeLessThan(2500);
  });

  test('is at the pressure asked when the hold begins, but for those that stop short', () => {
    const reached = tested
      .filter(({ job }) => job.test_pressure_target_pa !== undefined)
      .map(({ job, readings, held }) => readings.testPa[held.from] / (job.test_pressure_target_pa ?? 1));
    expect(share(reached, (ratio) => ratio > 0.985 && ratio < 1.025)).toBeGreaterThan(0.9);
    expect(share(reached, (ratio) => ratio < 0.96)).toBeGreaterThan(0.01);
    expect(Math.max(...reached)).toBeLessThan(1.05);
  });

  test('shows the drop that is true, the temperature of the pipe taken out', () => {
    const apart = tested
      .filter(({ readings, held }) => !Number.isNaN(readings.lineC[0]) && held.to > held.settled)
      .map(({ readings, truth, held, startS, endS }) => {
        const kelvin = (at: number) => readings.lineC[at] + 273.15;
        const startPa = readings.testPa[held.settled];
        const expectedPa = nitrogenPressureAfter({ startPa, startK: kelvin(held.settled), endK: kelvin(held.to) });
        const share = (readings.elapsedS[held.to] - readings.elapsedS[held.settled]) / (endS - startS);
        return Math.abs(expectedPa - readings.testPa[held.to] - share * (truth.pressure_drop_pa ?? 0)) / startPa;
      })
      .sort((a, b) => a - b);
    // Steps, settling, and gas that stands elsewhere than the clamp. Measured: half within 0.10 %, 90 % within 0.45 %.
    expect(apart[Math.floor(apart.length * 0.5)]).toBeLessThan(0.0015);
    expect(apart[Math.floor(apart.length * 0.9)]).toBeLessThan(0.006);
  });

  test('the true drop is what the leak takes, and none where nothing leaks', () => {
    for (const { truth, startS, endS, job, readings, held } of tested) {
      const leak = truth.pressure_leak_mol_per_s ?? Number.NaN;
      const dropPa = truth.pressure_drop_pa ?? Number.NaN;
      expect(leak === 0).toBe(truth.pressure_leak_sort === undefined);
      if (leak === 0) expect(dropPa).toBe(0);
      const startPa = readings.testPa[held.from];
      if (leak === 0 || dropPa > 0.05 * startPa || job.tested_volume_l === undefined) continue;
      // Ideal gas at 15 °C in the recorded volume; temperature, Z and the fall of the leak leave up to 5.8 %.
      const idealPa = (leak * (endS - startS) * 8.314 * 288) / (job.tested_volume_l / 1000);
      expect(Math.abs(dropPa / idealPa - 1)).toBeLessThan(0.07);
    }
  });
});

describe('simulatePressureTest', () => {
  const [technician] = technicians;
  const system = drawSystem(new Random(5), 'ductless', false);
  const drawn = (seed: number, more: Partial<Parameters<typeof simulatePressureTest>[0]> = {}) =>
    simulatePressureTest({
      random: new Random(seed),
      technician: { ...technician, skipsPressureTest: 0 },
      day: 40.4,
      system,
      used: false,
      lineC: 20,
      atmospherePa: 101_325,
      leakPaPerS: 0,
      clamp: true,
      ...more,
    });
  const seeds = Array.from({ length: 40 }, (_, index) => index + 1);

  test('a leak is the same opening as in the vacuum', () => {
    for (const seed of seeds) {
      const { truth, leakPaPerS } = drawn(seed, { leakPaPerS: 1e-3 });
      const { pressure_leak_sort: sort = 'hole', pressure_leak_mol_per_s: molPerS } = truth;
      if (molPerS === undefined || truth.pressure_mended) continue;
      expect(leakPaPerS).toBe(1e-3);
      const at = (psi: number) =>
        leakUnderPressure({
          leakPaPerS,
          volumeM3: system.testedM3,
          temperatureK: 293.15,
          atmospherePa: 101_325,
          pressurePa: psi * PSI_PA + 101_325,
          sort,
        });
      expect(molPerS).toBeGreaterThan(at(340));
      expect(molPerS).toBeLessThan(at(470));
    }
  });

  test('a large leak is seen and mended by who cares, and left by who does not; a tight system is left alone', () => {
    const large = { leakPaPerS: 0.5 };
    const careful = { technician: { ...technician, skipsPressureTest: 0, testsShort: 0, retests: 1 } };
    const careless = { technician: { ...technician, skipsPressureTest: 0, testsShort: 0, retests: 0 } };
    // Through a hole it would be 2 psi in 15 min, which some gauges hardly show.
    const laminar = seeds.filter((seed) => drawn(seed, large).truth.pressure_leak_sort === 'laminar');
    expect(laminar.length).toBeGreaterThan(15);
    for (const seed of laminar) {
      const mended = drawn(seed, { ...large, ...careful });
      expect(mended.truth.pressure_mended).toBe(true);
      expect(mended.leakPaPerS).toBeLessThanOrEqual(0.02 * 0.5);
      expect(drawn(seed, { ...large, ...careless })).toMatchObject({
        leakPaPerS: 0.5,
        truth: { pressure_mended: false },
      });
      expect(drawn(seed, careful)).toMatchObject({ leakPaPerS: 0, truth: { pressure_mended: false } });
    }
    const twice = laminar.map(
      (seed) => drawn(seed, { ...large, ...careful }).durationS > 1.5 * drawn(seed, careful).durationS,
    );
    expect(share(twice, (again) => again)).toBeGreaterThan(0.4);
  });

  test('who skips the test changes nothing', () => {
    const skipped = drawn(1, { leakPaPerS: 0.5, technician: { ...technician, skipsPressureTest: 1 } });
    expect(skipped).toMatchObject({ readings: undefined, durationS: 0, leakPaPerS: 0.5 });
    expect(skipped.truth).toEqual({ pressure_test: 'skipped' });
  });
});

test('the evacuation is what it would be without the test, later on the clock, unless a leak was mended', () => {
  let [same, other] = [0, 0];
  for (let seed = 1; seed <= 30; seed++) {
    const options = () => {
      const random = new Random(seed);
      const used = seed % 3 === 0;
      const system = drawSystem(random, 'ductless', used);
      const charge = { massKg: 0.5, cylinderKg: 9, scaleStepKg: 0.005 };
      const technician = { ...technicians[seed % technicians.length], leakMultiple: 8 };
      return { random, technician, crew: crews[0], day: 100, system, used, lineC: 18, altitudeM: 60, charge };
    };
    const alone = simulateVacuumLog(options());
    const { pressureTest, readings, truth } = simulateJobLog({ ...options(), testRandom: new Random(seed, -1) });
    if (readings === undefined || alone.readings === undefined) continue;
    const from = readings.testPa.findLastIndex((pa) => !Number.isNaN(pa)) + 1;
    const vacuumPa = readings.vacuumPa.subarray(from);
    if (truth.pressure_mended) {
      expect(truth.circuit_leak_pa_per_s).toBeLessThanOrEqual(pressureTest.leakPaPerS);
      expect(pressureTest.leakPaPerS).toBeLessThanOrEqual(0.02 * 0.8);
      if (vacuumPa.join() !== alone.readings.vacuumPa.join()) other++;
      continue;
    }
    expect(vacuumPa).toEqual(alone.readings.vacuumPa);
    const offsetS = readings.elapsedS[from] - alone.readings.elapsedS[0];
    expect(offsetS).toBe(from === 0 ? 0 : pressureTest.durationS);
    if (alone.truth.isolation_start_s !== undefined)
      expect((truth.isolation_start_s ?? 0) - alone.truth.isolation_start_s).toBeCloseTo(offsetS, 6);
    same++;
  }
  expect(same).toBeGreaterThan(15);
  expect(other).toBeGreaterThan(1);
});
