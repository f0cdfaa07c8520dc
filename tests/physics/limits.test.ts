import { describe, expect, test } from 'vitest';
import { DryholdError } from '../../src/errors.ts';
import { apertureConductance } from '../../src/physics/aperture-conductance.ts';
import { effectivePumpingSpeed } from '../../src/physics/effective-pumping-speed.ts';
import { leakAtOperatingPressure } from '../../src/physics/leak-at-operating-pressure.ts';
import { leakFromMolarLeak } from '../../src/physics/leak-from-molar-leak.ts';
import { leakFromNitrogenDrop } from '../../src/physics/leak-from-nitrogen-drop.ts';
import { leakFromRise } from '../../src/physics/leak-from-rise.ts';
import { leakFromYearlyLoss } from '../../src/physics/leak-from-yearly-loss.ts';
import { leakRatios } from '../../src/physics/leak-ratios.ts';
import { lineMass } from '../../src/physics/line-mass.ts';
import { molarLeak } from '../../src/physics/molar-leak.ts';
import { molarLeakFromRise } from '../../src/physics/molar-leak-from-rise.ts';
import { nitrogenLeakAtOperatingPressure } from '../../src/physics/nitrogen-leak-at-operating-pressure.ts';
import { nozzleThroughput } from '../../src/physics/nozzle-throughput.ts';
import { pullDownThroughHose } from '../../src/physics/pull-down-through-hose.ts';
import { pullDownTime } from '../../src/physics/pull-down-time.ts';
import { refrigerantNamed } from '../../src/physics/refrigerants/refrigerant-named.ts';
import { limitsOf, requireWithin } from '../../src/physics/require-within.ts';
import { riseFromLeak } from '../../src/physics/rise-from-leak.ts';
import { saturatedLineMass } from '../../src/physics/saturated-line-mass.ts';
import { systemPumpingSpeed } from '../../src/physics/system-pumping-speed.ts';
import { tubeConductance } from '../../src/physics/tube-conductance.ts';
import { tubePassage } from '../../src/physics/tube-passage.ts';
import { yearlyLoss } from '../../src/physics/yearly-loss.ts';

/** A function of the one argument in question, and what an error calls it. */
type Case = readonly [name: string, compute: (value: number) => unknown, quantity: string];

const pull = { volumeM3: 0.005, startPa: 101325, endPa: 66 };
const pump = { pumpSpeedM3PerS: 0.003, passages: [tubePassage(0.0064, 1.5)] };
const ideal = { ...pull, speedM3PerS: 0.003 };
const test60S = { volumeM3: 0.004, startPa: 30, endPa: 60, startK: 293, endK: 293, durationS: 60 };
const leak = { leakPaM3PerS: 1e-5, operatingPa: 1e6, temperatureK: 293, molarMassKgPerMol: 0.07, viscosityPaS: 1.3e-5 };
const drive = { fromPa: 2, toPa: 0, molarMassKgPerMol: 0.07, viscosityPaS: 1.3e-5 };
const standing = { ...leak, testPa: 4e6 };
const drop = { volumeM3: 0.005, dropPaPerS: 0.08, testPa: 4e6, temperatureK: 293 };
const gas = { temperatureK: 293, molarMassKgPerMol: 0.07, viscosityPaS: 1.3e-5, heatCapacityRatio: 1.1 };
const r32 = refrigerantNamed('R-32');

const above0: Case[] = [
  ['aperture, area', (area) => apertureConductance(area), 'area [m²]'],
  ['nozzle, area', (area) => nozzleThroughput(area, 2, 1), 'area [m²]'],
  ['tube, bore', (bore) => tubeConductance(bore, 1, 1), 'bore [m]'],
  ['tube, length', (length) => tubeConductance(1, length, 1), 'length [m]'],
  ['passage, bore', (bore) => tubePassage(bore, 1), 'bore [m]'],
  ['passage, length', (length) => tubePassage(1, length), 'length [m]'],
  ['gas, T', (temperatureK) => tubePassage(1, 1, { ...gas, temperatureK }), 'temperature [K]'],
  ['gas, η', (viscosityPaS) => tubePassage(1, 1, { ...gas, viscosityPaS }), 'viscosity [Pa·s]'],
  ['pull-down, volume', (v) => pullDownTime({ ...ideal, volumeM3: v }), 'volume [m³]'],
  ['hose, volume', (v) => pullDownThroughHose({ ...pull, ...pump, volumeM3: v }), 'volume [m³]'],
  ['leak from rise', (volumeM3) => leakFromRise(volumeM3, 1), 'volume [m³]'],
  ['rise from leak', (volumeM3) => riseFromLeak(volumeM3, 1), 'volume [m³]'],
  ['decay, volume', (v) => molarLeakFromRise({ ...test60S, volumeM3: v }), 'volume [m³]'],
  ['decay, T₁', (startK) => molarLeakFromRise({ ...test60S, startK }), 'temperature [K]'],
  ['decay, T₂', (endK) => molarLeakFromRise({ ...test60S, endK }), 'temperature [K]'],
  ['decay, time', (durationS) => molarLeakFromRise({ ...test60S, durationS }), 'duration [s]'],
  ['molar leak', (temperatureK) => molarLeak(1, temperatureK), 'temperature [K]'],
  ['from molar leak', (temperatureK) => leakFromMolarLeak(1, temperatureK), 'temperature [K]'],
  ['yearly loss', (temperatureK) => yearlyLoss(1, temperatureK, 0.07), 'temperature [K]'],
  ['from yearly loss', (k) => leakFromYearlyLoss(1, k, 0.07), 'temperature [K]'],
  ['leak, T', (temperatureK) => leakAtOperatingPressure({ ...leak, temperatureK }), 'temperature [K]'],
  ['leak, η', (viscosityPaS) => leakAtOperatingPressure({ ...leak, viscosityPaS }), 'viscosity [Pa·s]'],
  [
    'leak, atmosphere',
    (atmospherePa) => leakAtOperatingPressure({ ...leak, atmospherePa }),
    'pressure of the atmosphere [Pa], absolute',
  ],
  ['ratios, seen η', (viscosityPaS) => leakRatios({ ...drive, viscosityPaS }, drive), 'viscosity [Pa·s]'],
  ['ratios, later η', (viscosityPaS) => leakRatios(drive, { ...drive, viscosityPaS }), 'viscosity [Pa·s]'],
  ['nitrogen, T', (k) => nitrogenLeakAtOperatingPressure({ ...standing, temperatureK: k }), 'temperature [K]'],
  ['nitrogen, η', (viscosityPaS) => nitrogenLeakAtOperatingPressure({ ...standing, viscosityPaS }), 'viscosity [Pa·s]'],
  ['drop, volume', (volumeM3) => leakFromNitrogenDrop({ ...drop, volumeM3 }), 'volume [m³]'],
  ['line mass', (volume) => lineMass(volume, 1000), 'inner volume [m³/m]'],
  ['saturated', (volume) => saturatedLineMass(volume, r32, 300), 'inner volume [m³/m]'],
];

const from0: Case[] = [
  ['tube, pressure', (meanPa) => tubeConductance(1, 1, meanPa), 'pressure [Pa], absolute'],
  ['nozzle, behind', (behindPa) => nozzleThroughput(1, 1, behindPa), 'pressure [Pa], absolute'],
  ['nozzle, before', (beforePa) => nozzleThroughput(1, beforePa, 0), 'pressure [Pa], absolute'],
  ['pull-down, start', (startPa) => pullDownTime({ ...ideal, startPa }), 'pressure [Pa], absolute'],
  ['pull-down, end', (endPa) => pullDownTime({ ...ideal, endPa }), 'pressure [Pa], absolute'],
  ['pull-down, floor', (floorPa) => pullDownTime({ ...ideal, floorPa }), 'pressure [Pa], absolute'],
  ['pull-down, speed', (s) => pullDownTime({ ...ideal, speedM3PerS: s }), 'pumping speed [m³/s]'],
  ['hose, start', (p) => pullDownThroughHose({ ...pull, ...pump, startPa: p }), 'pressure [Pa], absolute'],
  ['hose, end', (p) => pullDownThroughHose({ ...pull, ...pump, endPa: p }), 'pressure [Pa], absolute'],
  ['hose, floor', (p) => pullDownThroughHose({ ...pull, ...pump, floorPa: p }), 'pressure [Pa], absolute'],
  ['hose, speed', (speed) => pullDownThroughHose({ ...pull, ...pump, pumpSpeedM3PerS: speed }), 'pumping speed [m³/s]'],
  ['system, pressure', (systemPa) => systemPumpingSpeed(pump, systemPa), 'pressure [Pa], absolute'],
  ['system, floor', (floorPa) => systemPumpingSpeed({ ...pump, floorPa }, 9), 'pressure [Pa], absolute'],
  ['system, speed', (s) => systemPumpingSpeed({ ...pump, pumpSpeedM3PerS: s }, 9), 'pumping speed [m³/s]'],
  ['effective, pump', (speed) => effectivePumpingSpeed(speed, 1), 'pumping speed [m³/s]'],
  ['decay, start', (startPa) => molarLeakFromRise({ ...test60S, startPa }), 'pressure [Pa], absolute'],
  ['decay, end', (endPa) => molarLeakFromRise({ ...test60S, endPa }), 'pressure [Pa], absolute'],
  ['leak, leak', (leakPaM3PerS) => leakAtOperatingPressure({ ...leak, leakPaM3PerS }), 'leak [Pa·m³/s]'],
  ['leak, pressure', (p) => leakAtOperatingPressure({ ...leak, operatingPa: p }), 'pressure [Pa], absolute'],
  ['ratios, from', (fromPa) => leakRatios(drive, { ...drive, fromPa }), 'pressure [Pa], absolute'],
  ['ratios, seen to', (toPa) => leakRatios({ ...drive, toPa }, drive), 'pressure [Pa], absolute'],
  ['ratios, later to', (toPa) => leakRatios(drive, { ...drive, toPa }), 'pressure [Pa], absolute'],
  ['nitrogen, leak', (q) => nitrogenLeakAtOperatingPressure({ ...standing, leakPaM3PerS: q }), 'leak [Pa·m³/s]'],
  ['line mass, density', (density) => lineMass(1, density), 'density [kg/m³]'],
];

const molarMasses: Case[] = [
  ['passage', (molarMassKgPerMol) => tubePassage(1, 1, { ...gas, molarMassKgPerMol }), 'molar mass [kg/mol]'],
  ['tube', (molarMassKgPerMol) => tubeConductance(1, 1, 1, { ...gas, molarMassKgPerMol }), 'molar mass [kg/mol]'],
  ['nozzle', (molarMassKgPerMol) => nozzleThroughput(1, 1, 0, { ...gas, molarMassKgPerMol }), 'molar mass [kg/mol]'],
  ['aperture', (molarMassKgPerMol) => apertureConductance(1, { ...gas, molarMassKgPerMol }), 'molar mass [kg/mol]'],
  ['leak', (molarMassKgPerMol) => leakAtOperatingPressure({ ...leak, molarMassKgPerMol }), 'molar mass [kg/mol]'],
  ['ratios', (molarMassKgPerMol) => leakRatios(drive, { ...drive, molarMassKgPerMol }), 'molar mass [kg/mol]'],
  ['yearly loss', (molarMass) => yearlyLoss(1, 293, molarMass), 'molar mass [kg/mol]'],
  ['from yearly loss', (molarMass) => leakFromYearlyLoss(1, 293, molarMass), 'molar mass [kg/mol]'],
];

function expectRefused([, compute, quantity]: Case, bound: string, received: number): void {
  expect(() => compute(received)).toThrow(DryholdError);
  expect(() => compute(received)).toThrow(`${quantity} out of range: must be ${bound}, received ${received}`);
}

const neverNumbers = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

test.each(above0)('%s: must be above 0', (...each) => {
  expect(() => each[1](1e-9)).not.toThrow();
  for (const received of [0, -1e-9, -1, ...neverNumbers]) expectRefused(each, 'above 0 and finite', received);
});

test.each(from0)('%s: must be 0 or more', (...each) => {
  expect(() => each[1](0)).not.toThrow();
  for (const received of [-1e-9, -1, ...neverNumbers]) expectRefused(each, '0 or more and finite', received);
});

test.each(molarMasses)('%s: a molar mass in g/mol is refused', (...each) => {
  for (const received of [0.001, 1]) expect(() => each[1](received)).not.toThrow();
  for (const received of [0.000999, 1.001, 72.6, 0, -0.07, ...neverNumbers])
    expectRefused(each, '0.001 to 1', received);
});

describe('other bounds', () => {
  test('a ratio of heat capacities is above 1', () => {
    expect(nozzleThroughput(1, 1, 0, { ...gas, heatCapacityRatio: 1.001 })).toBeGreaterThan(0);
    expect(() => nozzleThroughput(1, 1, 0, { ...gas, heatCapacityRatio: 1 })).toThrow(
      'ratio of heat capacities out of range: must be above 1 and finite, received 1',
    );
  });

  test('a nozzle has no more pressure behind it than before it', () => {
    expect(nozzleThroughput(1, 1, 1)).toBe(0);
    expect(() => nozzleThroughput(1, 1, 1.001)).toThrow(
      'pressure behind a nozzle [Pa], absolute out of range: must be 0 to 1, received 1.001',
    );
  });

  test('a conductance may be infinite, where nothing is in the way, but not below 0', () => {
    expect(effectivePumpingSpeed(0.003, Number.POSITIVE_INFINITY)).toBeCloseTo(0.003, 15);
    expect(() => effectivePumpingSpeed(0.003, 1, -1e-9)).toThrow(
      'conductance [m³/s] out of range: must be 0 or more, received -1e-9',
    );
    expect(() => effectivePumpingSpeed(0.003, Number.NaN)).toThrow(/must be 0 or more, received NaN/);
  });

  test('what a measurement may give with either sign keeps it, and is finite', () => {
    expect(leakFromRise(0.004, -0.5)).toBe(-0.002);
    expect(riseFromLeak(0.004, -0.002)).toBe(-0.5);
    expect(molarLeak(-1, 293)).toBe(-molarLeak(1, 293));
    expect(leakFromMolarLeak(-1, 293)).toBe(-leakFromMolarLeak(1, 293));
    expect(yearlyLoss(-1, 293, 0.07)).toBe(-yearlyLoss(1, 293, 0.07));
    expect(leakFromYearlyLoss(-1, 293, 0.07)).toBe(-leakFromYearlyLoss(1, 293, 0.07));
    for (const never of neverNumbers) {
      expect(() => leakFromRise(1, never)).toThrow('rise [Pa/s] out of range: must be finite, received');
      expect(() => riseFromLeak(1, never)).toThrow('leak [Pa·m³/s] out of range: must be finite, received');
      expect(() => molarLeak(never, 293)).toThrow('leak [Pa·m³/s] out of range: must be finite, received');
      expect(() => leakFromMolarLeak(never, 293)).toThrow('leak [mol/s] out of range: must be finite, received');
      expect(() => yearlyLoss(never, 293, 0.07)).toThrow('leak [Pa·m³/s] out of range: must be finite, received');
      expect(() => leakFromYearlyLoss(never, 293, 0.07)).toThrow('loss [kg/year] out of range: must be finite');
    }
  });

  test('a bound above may stand alone', () => {
    expect(() => requireWithin(limitsOf('share', { to: 1 }), -5)).not.toThrow();
    expect(() => requireWithin(limitsOf('share', { to: 1 }), 1.1)).toThrow(
      'share out of range: must be at most 1, rec',
    );
    expect(() => requireWithin(limitsOf('share', { above: 0, to: 1 }), 0)).toThrow(
      'must be above 0 and at most 1, rec',
    );
  });
});
