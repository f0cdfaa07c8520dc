import type { JobCurve } from '../../src/facts/recording/job-curves.ts';
import { Random } from '../../src/numerics/random.ts';
import { seasonC } from '../../src/simulate/calendar.ts';
import { crews } from '../../src/simulate/crews.ts';
import { simulateJobLog } from '../../src/simulate/job-log.ts';
import { shop } from '../../src/simulate/shop.ts';
import { drawSystem, type SystemType } from '../../src/simulate/system.ts';
import { technicians } from '../../src/simulate/technicians.ts';
import { testGaugeOf } from '../../src/simulate/test-gauges.ts';
import type { VacuumGauge } from '../../src/simulate/vacuum-gauges.ts';
import { drawTrial } from '../truth/draw-trial.ts';
import { runTrial } from '../truth/run-trial.ts';
import { type CopiedGauge, testPressureGauge, vacuumGauge } from '../../src/simulate/mishaps/copied-gauge.ts';

/** A curve of an honest job, and the gauge that logged it. */
export interface HonestCurve extends JobCurve {
  readonly by: CopiedGauge;
}

export type HonestKind = 'fleet' | 'drawn' | 'quiet';

/**
 * Jobs of one fleet, in which twelve gauges log everything; one in ten with a gauge of its own; one in ten with a gauge that
 * shows no noise, or hardly any, in coarse steps.
 */
export function kindOf(number: number): HonestKind {
  return number % 10 === 3 ? 'drawn' : number % 10 === 7 ? 'quiet' : 'fleet';
}

/** The curves of the job of that number; the same for the same seed and number. */
export function honestLog(seed: number, number: number): HonestCurve[] {
  return kindOf(number) === 'fleet' ? fleetLog(seed, number) : trialLog(seed, number);
}

/** The part of a simulated job that its vacuum gauge and its pressure test log. */
function fleetLog(seed: number, number: number): HonestCurve[] {
  const random = new Random(seed, number);
  const technician = random.choice(technicians);
  const day = random.uniform(0, 364);
  const crew = crews.find(({ crewId }) => crewId === technician.crewId) ?? crews[0];
  const used = random.chance(crew.repairShare);
  const { gauge, readings } = simulateJobLog({
    random,
    testRandom: new Random(seed, -number),
    technician,
    crew,
    day,
    system: drawSystem(random, random.weighted<SystemType>(crew.systemTypes), used),
    used,
    lineC: Math.min(38, Math.max(4, (seasonC(day) + 20) / 2 + random.normal(0, 3))),
    altitudeM: random.choice(shop.districts).altitudeM,
    charge: { massKg: random.uniform(0.1, 2), cylinderKg: 9, scaleStepKg: 0.005 },
  });
  if (readings === undefined) return [];
  const { elapsedS, vacuumPa, testPa } = readings;
  const test = testPressureGauge(testGaugeOf(technician.technicianId, 3600));
  return [
    curve('vacuum_pa', elapsedS, vacuumPa, vacuumGauge(gauge)),
    curve('test_pressure_pa', elapsedS, testPa, test),
  ].filter(({ pa }) => pa.some((value) => Number.isFinite(value)));
}

function trialLog(seed: number, number: number): HonestCurve[] {
  const drawn = drawTrial(seed, number);
  const gauge = kindOf(number) === 'quiet' ? quiet(drawn.gauge, new Random(seed, 1_600_000_000 + number)) : drawn.gauge;
  const plan = { ...drawn, gauge, ...(gauge === drawn.gauge ? {} : { walkRatio: 0 }) };
  const { readings } = runTrial(plan);
  return [curve('vacuum_pa', readings.elapsedS, readings.vacuumPa, vacuumGauge(gauge))];
}

function quiet(gauge: VacuumGauge, random: Random): VacuumGauge {
  return {
    ...gauge,
    noiseRatio: random.choice([0, 0, 0.0005, 0.001]),
    stepPa: gauge.stepPa * random.choice([1, 1, 5, 10]),
  };
}

function curve(column: JobCurve['column'], elapsedS: Float64Array, pa: Float64Array, by: CopiedGauge): HonestCurve {
  const rows = pa.findLastIndex((value) => !Number.isNaN(value)) + 1;
  return { column, gauge: null, elapsedS: elapsedS.subarray(0, rows), pa: pa.subarray(0, rows), by };
}
