import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { fewestReadings, findVacuumPhases, type VacuumPhases } from '../../src/traces/vacuum-phases.ts';
import type { VacuumSeries } from '../../src/traces/vacuum-series.ts';
import { MICRON_PA, SyntheticLog, type SyntheticLogOptions } from '../facts/synthetic-log.ts';

const atmosphere = 650_000;
const targetPa = 500 * MICRON_PA;
const words = ({ phases }: VacuumPhases) => phases.map(({ phase }) => phase).join(' ');
const start = (found: VacuumPhases, phase: string) =>
  found.phases.findLast((one) => one.phase === phase)?.startS ?? Number.NaN;

/** Valve-off at 920 s, then 250 → 550 µm in 600 s. */
const job = (options: SyntheticLogOptions = {}) =>
  new SyntheticLog(options).hold(atmosphere, 20).pull(atmosphere, 250, 600).hold(250, 300).rise(250, 0.5, 600);

describe('findVacuumPhases', () => {
  test.each([1, 2, 3, 5])(
    'readings every %d s, with noise: the phases in order, the valve-off at its place',
    (intervalS) => {
      for (let seed = 1; seed <= 8; seed += 1) {
        const found = findVacuumPhases(job({ intervalS, noiseRatio: 0.008, seed }).series(), targetPa);
        expect(words(found)).toBe('pull-down hold isolation');
        expect(found.pulls).toBe(1);
        expect(Math.abs(start(found, 'isolation') - 920)).toBeLessThanOrEqual(Math.max(10, 3 * intervalS));
        expect(Math.abs(start(found, 'pull-down') - 20)).toBeLessThanOrEqual(10);
        const isolation = found.phases.at(-1);
        expect(isolation?.startLowS).toBeLessThanOrEqual(start(found, 'isolation'));
        expect(isolation?.startHighS).toBeGreaterThanOrEqual(start(found, 'isolation'));
      }
    },
  );

  test.each([1, 5, 10])('a gauge that shows steps of %d µm', (stepMicrons) => {
    for (let seed = 1; seed <= 8; seed += 1) {
      const found = findVacuumPhases(job({ stepMicrons, noiseRatio: 0.008, seed }).series(), targetPa);
      expect(words(found)).toBe('pull-down hold isolation');
      const { startLowS = Number.NaN, startHighS = Number.NaN, startS } = found.phases[2];
      expect(Math.abs(startS - 920)).toBeLessThanOrEqual(stepMicrons === 10 ? 30 : 14);
      expect([startLowS <= 920, startHighS >= 920]).toEqual([true, true]);
    }
  });

  test('spikes of single readings are no breaks and no isolations', () => {
    const { gauge, elapsedS, vacuumPa } = job({ noiseRatio: 0.005 }).series();
    const random = new Random(6);
    const spiked = vacuumPa.slice();
    for (let i = 5; i < spiked.length; i += random.integer(20, 60)) spiked[i] = random.chance(0.5) ? 90_000 : 0.2;
    const found = findVacuumPhases({ gauge, elapsedS, vacuumPa: spiked }, targetPa);
    expect(words(found)).toBe('pull-down hold isolation');
    expect(Math.abs(start(found, 'isolation') - 920)).toBeLessThanOrEqual(10);
  });

  test.each([
    ['the pull', 200],
    ['the hold', 750],
    ['the rise', 1200],
  ])('a gap of 100 s in %s', (_, fromS) => {
    const { gauge, elapsedS, vacuumPa } = job({ noiseRatio: 0.005 }).series();
    const kept = [...elapsedS.keys()].filter((i) => elapsedS[i] < fromS || elapsedS[i] > fromS + 100);
    const found = findVacuumPhases(
      {
        gauge,
        elapsedS: Float64Array.from(kept, (i) => elapsedS[i]),
        vacuumPa: Float64Array.from(kept, (i) => vacuumPa[i]),
      },
      targetPa,
    );
    expect(words(found)).toBe('pull-down hold isolation');
    expect(Math.abs(start(found, 'isolation') - 920)).toBeLessThanOrEqual(10);
  });

  test('never at the target: pull-down and isolation, no hold', () => {
    expect(words(findVacuumPhases(job({ noiseRatio: 0.005 }).series(), 100 * MICRON_PA))).toBe('pull-down isolation');
  });

  test('a stall at the vapour pressure of water is no hold and no isolation', () => {
    const log = new SyntheticLog({ noiseRatio: 0.005 })
      .hold(atmosphere, 20)
      .pull(atmosphere, 18_000, 200)
      .hold(18_000, 300);
    const found = findVacuumPhases(log.pull(18_000, 250, 600).hold(250, 300).series(), targetPa);
    expect([words(found), found.pulls]).toEqual(['pull-down hold', 1]);
  });

  test('weather and a resting gauge at the atmosphere are no phases', () => {
    const log = new SyntheticLog({ noiseRatio: 0.002 }).rise(700_000, 5, 3600);
    expect(findVacuumPhases(log.series(), targetPa)).toEqual({ phases: [], pulls: 0 });
  });

  test('a rise smaller than gauges drift is no isolation', () => {
    const log = new SyntheticLog({ noiseRatio: 0.002 }).hold(atmosphere, 20).pull(atmosphere, 250, 600).hold(250, 300);
    expect(words(findVacuumPhases(log.rise(250, 0.004, 600).series(), targetPa))).toBe('pull-down hold');
  });

  test('too few readings show nothing', () => {
    const { elapsedS, vacuumPa } = job().series();
    const first = {
      gauge: null,
      elapsedS: elapsedS.slice(0, fewestReadings - 1),
      vacuumPa: vacuumPa.slice(0, fewestReadings - 1),
    };
    expect(findVacuumPhases(first, targetPa)).toEqual({ phases: [], pulls: 0 });
  });

  test('changes neither the readings nor the marks', () => {
    const series = job({ noiseRatio: 0.005 }).series();
    const copy = [[...series.elapsedS], [...series.vacuumPa]];
    findVacuumPhases(series, targetPa, Object.freeze([Object.freeze({ elapsedS: 3, phase: 'isolation' })]));
    expect([[...series.elapsedS], [...series.vacuumPa]]).toEqual(copy);
  });
});

test('whatever is read: phases in order of time, within the log, on their readings, and no throw', () => {
  const pressure = fc.oneof(
    fc.double({ min: -2, max: 5, noNaN: true }).map((power) => 10 ** power),
    fc.constantFrom(0, Number.POSITIVE_INFINITY),
  );
  const stretch = fc.tuple(pressure, pressure, fc.integer({ min: 1, max: 60 }));
  const logs = fc.array(stretch, { minLength: 1, maxLength: 8 }).map((stretches): VacuumSeries => {
    const pa = stretches.flatMap(([from, to, count]) =>
      Array.from({ length: count }, (_, index) =>
        Number.isFinite(from) && Number.isFinite(to) ? from + ((to - from) * index) / count : from,
      ),
    );
    return { gauge: null, elapsedS: Float64Array.from(pa, (_, index) => 2 * index), vacuumPa: Float64Array.from(pa) };
  });
  const marks = fc.array(
    fc.record({
      elapsedS: fc.integer({ min: 0, max: 900 }),
      phase: fc.constantFrom('pull-down', 'hold', 'isolation', 'break', null),
    }),
    { maxLength: 4 },
  );
  fc.assert(
    fc.property(logs, marks, (series, unsorted) => {
      const found = findVacuumPhases(
        series,
        targetPa,
        [...unsorted].sort((a, b) => a.elapsedS - b.elapsedS),
      );
      let lastIndex = 0;
      for (const { phase, startS, endS, fromIndex, toIndex, startLowS, startHighS } of found.phases) {
        expect(fromIndex).toBeGreaterThanOrEqual(lastIndex);
        expect(toIndex).toBeGreaterThanOrEqual(fromIndex);
        expect([series.elapsedS[fromIndex], series.elapsedS[toIndex]]).toEqual([startS, endS]);
        lastIndex = toIndex;
        if (phase !== 'isolation') continue;
        expect(startLowS).toBeLessThanOrEqual(startS);
        expect(startHighS).toBeGreaterThanOrEqual(startS);
      }
      expect(found.pulls).toBeGreaterThanOrEqual(found.phases.filter(({ phase }) => phase === 'pull-down').length);
    }),
    { seed: 31, numRuns: 600 },
  );
});
