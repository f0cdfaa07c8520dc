import type { VacuumMaterial } from '../../../src/facts/job-material.ts';
import { Random } from '../../../src/numerics/random.ts';
import { waterVapourPressure } from '../../../src/physics/index.ts';
import { drawConditions } from '../../../src/simulate/conditions.ts';
import { crews } from '../../../src/simulate/crews.ts';
import { type Circuit, Evacuation } from '../../../src/simulate/evacuation.ts';
import { Recorder } from '../../../src/simulate/recorder.ts';
import { drawSystem, type SystemType } from '../../../src/simulate/system.ts';
import { technicians } from '../../../src/simulate/technicians.ts';
import { gaugeRow, vacuumGauges } from '../../../src/simulate/vacuum-gauges.ts';
import type { VacuumSeries } from '../../../src/traces/vacuum-series.ts';

/** A single pull of 40 min, what the record tells of it, and what its water did. */
export interface SimulatedPull {
  readonly series: VacuumSeries;
  readonly material: Pick<VacuumMaterial, 'job' | 'gauge' | 'line'>;
  /** How long standing water boiled within the gauge's range before it was used up [s]; 0 where it never was. */
  readonly boiledS: number;
  /** When it was used up [s]. */
  readonly goneS: number;
  /** Pressure at which that was, as a ratio of the vapour pressure at the pipe, and [Pa]. */
  readonly share: number;
  readonly stoodPa: number;
}

/** Draws a system, gear and gauge as the simulated fleets do, with standing water or without. */
export function simulatePull(seed: number, isWet: boolean, more: Partial<Circuit> = {}): SimulatedPull {
  const random = new Random(seed, isWet ? 1 : 2);
  const crew = random.choice(crews);
  const technician = random.choice(technicians);
  const used = random.chance(0.3);
  const system = drawSystem(random, random.weighted<SystemType>(crew.systemTypes), used);
  const lineC = Math.min(38, Math.max(4, 17 + random.normal(0, 7)));
  const where = { altitudeM: 0, coresIn: random.chance(0.3), gaugeAtPump: false };
  const day = random.uniform(0, 365);
  const { circuit, train } = drawConditions({ random, technician, crew, day, system, used, lineC, ...where });
  const waterKg = isWet ? random.logUniform(0.2e-3, 6e-3) : 0;
  const evacuation = new Evacuation(
    { ...circuit, waterKg, waterM3PerS: random.logUniform(3e-4, 2e-3), ...more },
    train,
  );
  const gauge = random.choice(vacuumGauges);
  const recorder = new Recorder({
    random,
    gauge,
    atPump: false,
    startPa: evacuation.atmospherePa,
    targetPa: 66.661184,
    dropoutRatio: 0,
    lineC: () => lineC,
  });
  let [seenS, goneS, stoodPa] = [Number.NaN, Number.NaN, Number.NaN];
  recorder.run(evacuation, 'idle', 30);
  recorder.run(evacuation, 'pull-down', 2400, () => {
    if (Number.isNaN(seenS) && recorder.seenPa < Number.POSITIVE_INFINITY) seenS = recorder.nowS;
    if (evacuation.waterLeftKg > 0) stoodPa = evacuation.systemPa;
    else if (Number.isNaN(goneS)) goneS = recorder.nowS;
    return false;
  });
  const { elapsedS, vacuumPa } = recorder.readings(0, recorder.nowS, []);
  return {
    series: { gauge: null, elapsedS, vacuumPa },
    material: { gauge: gaugeRow(gauge), line: { meanK: lineC + 273.15, lowK: lineC + 272.85 } },
    boiledS: isWet && goneS > seenS ? goneS - seenS : 0,
    goneS,
    share: stoodPa / waterVapourPressure(lineC + 273.15),
    stoodPa,
  };
}
