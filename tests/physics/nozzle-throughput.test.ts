import { describe, expect, test } from 'vitest';
import { apertureConductance } from '../../src/physics/aperture-conductance.ts';
import { nozzleThroughput } from '../../src/physics/nozzle-throughput.ts';

describe('nozzleThroughput', () => {
  test('is 20 L/s per cm² of air at 20 °C into vacuum, as vacuum texts have it (from memory, two figures)', () => {
    expect(nozzleThroughput(1e-4, 101325, 0) / 101325 / 1e-3).toBeCloseTo(20, 0);
  });

  test('is the sonic 0.6847 p √(M/RT) of gas dynamics for γ = 1.4 (from memory)', () => {
    // Mass flow per area over p √(M/RT), as compressible-flow tables print it.
    const perArea = nozzleThroughput(1, 5e5, 0) / 5e5 / Math.sqrt((8.314462618 * 293.15) / 0.02897);
    expect(perArea).toBeCloseTo(0.6847, 4);
  });

  test('does not know the pressure behind below 0.528 of that before, and does above', () => {
    const sonic = nozzleThroughput(1e-4, 1e5, 0);
    expect(nozzleThroughput(1e-4, 1e5, 0.528e5)).toBe(sonic);
    expect(nozzleThroughput(1e-4, 1e5, 0.55e5)).toBeLessThan(sonic);
    let before = sonic;
    for (let ratio = 0.53; ratio <= 1; ratio += 0.01) {
      const now = nozzleThroughput(1e-4, 1e5, ratio * 1e5);
      expect(now).toBeLessThan(before);
      before = now;
    }
    expect(nozzleThroughput(1e-4, 1e5, 1e5)).toBe(0);
  });

  test('at a small drop is Bernoulli: speed √(2 Δp/ρ) within 0.1 %', () => {
    const densityKgPerM3 = (1e5 * 0.02897) / (8.314462618 * 293.15);
    const speed = Math.sqrt((2 * 100) / densityKgPerM3);
    expect(Math.abs(nozzleThroughput(1e-4, 1e5, 1e5 - 100) / (1e-4 * 1e5 * speed) - 1)).toBeLessThan(0.001);
  });

  test('passes more than an aperture does in molecular flow, whatever is behind it', () => {
    for (let ratio = 0; ratio < 1; ratio += 0.05) {
      expect(nozzleThroughput(1, 10, 10 * ratio)).toBeGreaterThan(apertureConductance(1) * 10 * (1 - ratio));
    }
  });

  test('of a heavier gas is less, by √M', () => {
    const gas = { temperatureK: 293.15, molarMassKgPerMol: 4 * 0.02897 };
    expect(nozzleThroughput(1, 1e5, 0, gas) / nozzleThroughput(1, 1e5, 0)).toBeCloseTo(0.5, 12);
  });
});
