import { describe, expect, test } from 'vitest';
import { pullDownTime, tubeConductance, waterVapourPressure } from '../../src/physics/index.ts';
import { type Circuit, Evacuation, type PumpTrain } from '../../src/simulate/evacuation.ts';

const dry: Circuit = {
  nearM3: 0.0015,
  farM3: 0.0005,
  couplingBoreM: 0.00483,
  couplingLengthM: 1,
  leakPaPerS: 0,
  outgassingPa: 1,
  wallWaterPa: 100,
  wallWaterS: 100,
  wallDryingS: 150,
  waterKg: 0,
  waterM3PerS: 0,
  temperatureK: 295,
  altitudeM: 0,
};
const train: PumpTrain = {
  speedM3PerS: 0.00283,
  basePa: 3,
  hoseBoreM: 0.0064,
  hoseLengthM: 1.5,
  coresIn: false,
  hoseLeakPaM3PerS: 0,
  isolatedAtPump: false,
};

/** Seconds until the system is at `pa`; infinite after three hours. */
function secondsTo(evacuation: Evacuation, pa: number): number {
  for (let quarter = 0; quarter < 4 * 10_800; quarter++) {
    if (evacuation.systemPa <= pa) return quarter / 4;
    evacuation.advance(0.25, true);
  }
  return Number.POSITIVE_INFINITY;
}

describe('Evacuation', () => {
  test('without hose, walls and far volume it is the ideal pull-down, within 3 %', () => {
    const bare = { ...dry, nearM3: 0.02, farM3: 1e-6, outgassingPa: 0, wallWaterPa: 0 };
    const evacuation = new Evacuation(bare, { ...train, basePa: 0, hoseBoreM: 0.2, hoseLengthM: 0.5 });
    const idealS = pullDownTime({ volumeM3: 0.02, speedM3PerS: 0.00283, startPa: 101325, endPa: 66.66 });
    expect(Math.abs(secondsTo(evacuation, 66.66) / idealS - 1)).toBeLessThan(0.03);
  });

  // The outside figures take the hose at the system's pressure, the higher of its ends; the true mean lies between that
  // and its half, and so the time between those figures and twice as long.
  test.each([
    [0.19, 154],
    [0.25, 61],
    [0.375, 23],
  ])(
    '5 L through 5 ft of %d in bore at 6 cfm: 500 µm after %d s, computed outside, or at most twice that',
    (boreIn, outsideS) => {
      const hose = { boreM: boreIn * 0.0254, lengthM: 1.524 };
      const bare = { ...dry, nearM3: 0.005, farM3: 1e-6, outgassingPa: 0, wallWaterPa: 0 };
      const evacuation = new Evacuation(bare, {
        ...train,
        basePa: 0,
        hoseBoreM: hose.boreM,
        hoseLengthM: hose.lengthM,
      });
      const seconds = secondsTo(evacuation, 66.66);
      expect(seconds).toBeGreaterThan(outsideS);
      expect(seconds).toBeLessThan(2 * outsideS);
      // The same by short explicit steps, the pump's inlet found anew in each.
      let systemPa = 101325;
      let atS = 0;
      for (; systemPa > 66.66; atS += 0.01) {
        let inletPa = 0;
        let flow = 0;
        for (let round = 0; round < 20; round++) {
          const conductance = tubeConductance(hose.boreM, hose.lengthM, (systemPa + inletPa) / 2);
          inletPa = (conductance * systemPa) / (conductance + 0.00283);
          flow = conductance * (systemPa - inletPa);
        }
        systemPa -= (flow / 0.005) * 0.01;
      }
      expect(Math.abs(seconds / atS - 1)).toBeLessThan(0.03);
    },
  );

  test('a small ductless system reaches 33 Pa in 1 to 15 minutes', () => {
    const damp = { ...dry, wallWaterPa: 300 };
    const seconds = secondsTo(new Evacuation(damp, train), 33.33);
    expect(seconds).toBeGreaterThan(60);
    expect(seconds).toBeLessThan(900);
  });

  test('wetter, leakier, narrower and with cores in, it is slower', () => {
    const plain = secondsTo(new Evacuation(dry, train), 33.33);
    expect(secondsTo(new Evacuation({ ...dry, wallWaterPa: 800 }, train), 33.33)).toBeGreaterThan(plain);
    expect(secondsTo(new Evacuation({ ...dry, leakPaPerS: 0.5 }, train), 33.33)).toBeGreaterThan(plain);
    expect(secondsTo(new Evacuation(dry, { ...train, coresIn: true }), 33.33)).toBeGreaterThan(plain);
    expect(secondsTo(new Evacuation(dry, { ...train, hoseBoreM: 0.00483 }), 33.33)).toBeGreaterThan(plain);
  });

  test('stalls near the vapour pressure while a puddle boils off', () => {
    const saturationPa = waterVapourPressure(dry.temperatureK);
    const evacuation = new Evacuation({ ...dry, waterKg: 0.003, waterM3PerS: 0.002 }, train);
    let nearS = 0;
    for (let second = 0; second < 1800; second++) {
      evacuation.advance(1, true);
      if (evacuation.systemPa > saturationPa * 0.5 && evacuation.systemPa < saturationPa * 1.2) nearS++;
    }
    expect(nearS).toBeGreaterThan(100);
    expect(evacuation.waterLeftKg).toBe(0);
  });

  test('isolated, it never falls, and comes to k·t for a leak', () => {
    const leaky = { ...dry, leakPaPerS: 0.05 };
    const evacuation = new Evacuation(leaky, train);
    secondsTo(evacuation, 40);
    evacuation.resetRises();
    const startPa = evacuation.meanPa;
    let beforePa = evacuation.systemPa;
    for (let second = 0; second < 600; second++) {
      evacuation.advance(1, false);
      expect(evacuation.systemPa).toBeGreaterThanOrEqual(beforePa - 1e-9);
      beforePa = evacuation.systemPa;
    }
    expect(evacuation.leakRisePa).toBeCloseTo(0.05 * 600, 2);
    const partsPa = evacuation.leakRisePa + evacuation.waterRisePa + evacuation.outgassingRisePa;
    expect(evacuation.meanPa - startPa).toBeCloseTo(partsPa, 6);
  });

  test('isolated with standing water, it levels at the vapour pressure', () => {
    const evacuation = new Evacuation({ ...dry, waterKg: 0.01, waterM3PerS: 3e-6 }, train);
    for (let second = 0; second < 600; second++) evacuation.advance(1, true);
    expect(evacuation.systemPa).toBeLessThan(400);
    for (let second = 0; second < 20_000; second++) evacuation.advance(1, false);
    const saturationPa = waterVapourPressure(dry.temperatureK);
    expect(Math.abs(evacuation.waterPa / saturationPa - 1)).toBeLessThan(0.01);
  });

  test('is never negative, whatever the step', () => {
    for (const stepS of [0.1, 1, 5, 60]) {
      const evacuation = new Evacuation({ ...dry, waterKg: 0.0005, waterM3PerS: 0.002 }, train);
      for (let at = 0; at < 1200; at += stepS) {
        evacuation.advance(stepS, at % 400 < 300);
        expect(evacuation.nearGasPa).toBeGreaterThanOrEqual(0);
        expect(evacuation.farGasPa).toBeGreaterThanOrEqual(0);
        expect(evacuation.waterPa).toBeGreaterThanOrEqual(0);
        expect(evacuation.waterLeftKg).toBeGreaterThanOrEqual(0);
      }
    }
  });

  test('a gauge at the pump reads lower than the system while pumping, and with it when isolated', () => {
    const evacuation = new Evacuation({ ...dry, leakPaPerS: 0.5 }, { ...train, coresIn: true });
    for (let second = 0; second < 300; second++) evacuation.advance(1, true);
    expect(evacuation.pumpInletPa).toBeLessThan(evacuation.systemPa * 0.5);
    evacuation.advance(5, false);
    expect(evacuation.pumpInletPa / evacuation.systemPa).toBeCloseTo(1, 1);
  });
});
