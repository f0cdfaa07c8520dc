import type { Random } from '../numerics/random.ts';
import { copperTube } from '../physics/index.ts';
import type { Crew } from './crews.ts';
import type { Circuit, PumpTrain } from './evacuation.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';

/** What stands in the circuit and what pumps it, of one job. */
export interface Conditions {
  readonly circuit: Circuit;
  readonly train: PumpTrain;
}

/** What a job is drawn from. */
export interface ConditionsOptions {
  readonly random: Random;
  readonly technician: Technician;
  readonly crew: Crew;
  readonly day: number;
  readonly system: System;
  readonly used: boolean;
  readonly lineC: number;
  readonly altitudeM: number;
  readonly coresIn: boolean;
  readonly gaugeAtPump: boolean;
}

/** Draws how tight, dry and clean the circuit is, and what the pump and its hoses can do. */
export function drawConditions(options: ConditionsOptions): Conditions {
  const { random, technician, crew, system, used } = options;
  const farShare = random.uniform(0.2, 0.35);
  const leaky = random.chance(0.05 * technician.leakMultiple * system.lines.length ** 0.5);
  const wetness = random.uniform() / technician.wetMultiple;
  const damp = wetness < 0.07;
  const water = wetness < 0.02;
  const circuit: Circuit = {
    nearM3: system.testedM3 * (1 - farShare),
    farM3: system.testedM3 * farShare,
    couplingBoreM: copperTube((system.lines[0]?.size ?? 6.35) / 1000)?.boreM ?? 0.005,
    couplingLengthM: random.uniform(0.3, 2.5),
    leakPaPerS: leaky ? random.logUniform(0.012, 0.8) : random.chance(0.3) ? random.logUniform(1e-5, 1e-3) : 0,
    outgassingPa: used ? random.logUniform(4, 40) : random.logUniform(0.2, 2.5),
    wallWaterPa: damp ? random.uniform(400, 1500) : random.logUniform(40, 350),
    wallWaterS: random.uniform(40, 150),
    wallDryingS: damp ? random.uniform(600, 2400) : random.uniform(80, 170),
    waterKg: water ? random.logUniform(0.2e-3, 6e-3) : 0,
    // A puddle in the way of the pump boils off; a trap in a dead end lets its vapour out slowly.
    waterM3PerS: random.chance(0.6) ? random.logUniform(3e-4, 2e-3) : random.logUniform(5e-7, 5e-6),
    temperatureK: options.lineC + 273.15,
    altitudeM: options.altitudeM,
  };
  const pump = pumpOf(crew, options.day);
  const train: PumpTrain = {
    speedM3PerS: pump.speedLPerS / 1000,
    basePa: pump.basePa * (pump.isWorn ? random.uniform(0.7, 1.6) : random.uniform(0.8, 1.3)),
    hoseBoreM: crew.hoseBoreMm / 1000,
    hoseLengthM: crew.hoseLengthM,
    coresIn: options.coresIn,
    hoseLeakPaM3PerS:
      crew.hoseLeak !== undefined && options.day >= crew.hoseLeak.fromDay
        ? crew.hoseLeak.paM3PerS * random.uniform(0.6, 1.5)
        : 0,
    // With a core tool on, its valve shuts at the system; else the manifold's does, and the hose stays in the test.
    isolatedAtPump: options.coresIn || options.gaugeAtPump,
  };
  return { circuit, train };
}

/** A crew's pump on a day: what it moves, and the lowest pressure that it usually reaches [Pa]. */
export function pumpOf({ pumpSpeedLPerS, pumpBasePa, worn }: Crew, day: number) {
  return worn !== undefined && day >= worn.fromDay
    ? { speedLPerS: pumpSpeedLPerS * 0.7, basePa: worn.basePa, isWorn: true }
    : { speedLPerS: pumpSpeedLPerS, basePa: pumpBasePa, isWorn: false };
}
