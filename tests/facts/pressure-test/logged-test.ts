import { nitrogenPressureAfter } from '../../../src/physics/nitrogen-pressure-after.ts';
import type { PressureSeries } from '../../../src/traces/pressure-series.ts';

export const psiPa = 6894.757293168;
export const airPa = 101_325;
export const psig = (gauge: number): number => gauge * psiPa + airPa;
export const kelvin = (fahrenheit: number): number => (fahrenheit + 459.67) / 1.8;

/** A standing test written out by its physics: no gauge, no noise. */
export interface LoggedTest {
  /** Stages: filled within 30 s, then held [s] at [psig]. */
  readonly stages: readonly { readonly psig: number; readonly holdS: number }[];
  readonly intervalS?: number;
  /** Temperature of pipe and gas [°F], so long after the last filling [s]. */
  readonly lineF?: (sinceS: number) => number;
  /** Lost so long after the last filling, as a drop at its first temperature [psi]. */
  readonly lostPsi?: (sinceS: number) => number;
  /** Let off at the end. */
  readonly released?: boolean;
  readonly stepPsi?: number;
  /** No clamp where false. */
  readonly clamp?: boolean;
}

const fillS = 30;

/** The log of a test: real nitrogen of one temperature throughout. */
export function loggedTest(test: LoggedTest): PressureSeries {
  const {
    stages,
    intervalS = 5,
    lineF = () => 70,
    lostPsi = () => 0,
    released = false,
    stepPsi = 0,
    clamp = true,
  } = test;
  const rows: [number, number, number][] = [];
  const fromS = 60;
  const before = 0;
  const lastStartS = stages.slice(0, -1).reduce((sum, { holdS }) => sum + fillS + holdS, 60) + fillS;
  const temperature = (atS: number) => kelvin(lineF(Math.max(0, atS - lastStartS)));
  const held = (atS: number, gauge: number) => {
    const lost = atS > lastStartS ? lostPsi(atS - lastStartS) : 0;
    return nitrogenPressureAfter({
      startPa: psig(gauge - lost),
      startK: temperature(lastStartS),
      endK: temperature(atS),
    });
  };
  const pressureAt = (atS: number): number => {
    let startS = fromS;
    let low = before;
    for (const { psig: high, holdS } of stages) {
      if (atS < startS) return psig(low);
      if (atS < startS + fillS) return psig(low + ((high - low) * (atS - startS)) / fillS);
      startS += fillS + holdS;
      low = high;
      if (atS <= startS) return held(atS, high);
    }
    return Math.max(airPa, held(startS, low) * Math.exp((startS - atS) / 8));
  };
  const endS = stages.reduce((sum, { holdS }) => sum + fillS + holdS, 60) + (released ? 60 : 0);
  for (let atS = 0; atS <= endS; atS += intervalS) {
    const gaugePa = pressureAt(atS) - airPa;
    const shown = stepPsi > 0 ? Math.round(gaugePa / psiPa / stepPsi) * stepPsi * psiPa : gaugePa;
    rows.push([atS, shown + airPa, temperature(atS)]);
  }
  return {
    elapsedS: Float64Array.from(rows, ([atS]) => atS),
    testPa: Float64Array.from(rows, ([, pa]) => pa),
    lineK: clamp ? Float64Array.from(rows, ([, , k]) => k) : undefined,
  };
}
