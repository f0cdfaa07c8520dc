import type { JobCurve } from '../../src/facts/recording/job-curves.ts';
import { Random } from '../../src/numerics/random.ts';
import { CylinderStore } from '../../src/simulate/cylinder-store.ts';
import { simulateJob } from '../../src/simulate/job.ts';
import { technicians } from '../../src/simulate/technicians.ts';
import { testGaugeOf } from '../../src/simulate/test-gauges.ts';
import { compoundGauge, type VacuumGauge, vacuumGauges } from '../../src/simulate/vacuum-gauges.ts';
import { drawTrial } from '../truth/draw-trial.ts';
import { runTrial } from '../truth/run-trial.ts';
import { type CopiedGauge, testPressureGauge, vacuumGauge } from './copied-gauge.ts';

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

function fleetLog(seed: number, number: number): HonestCurve[] {
  const draw = new Random(seed, 1_500_000_000 + number);
  const technician = draw.choice(technicians);
  const day = draw.uniform(0, 364);
  const { job, readings } = simulateJob({
    seed,
    number,
    day,
    technician,
    revisit: undefined,
    cylinders: new CylinderStore(),
  });
  if (readings === undefined) return [];
  const gauge = [...vacuumGauges, compoundGauge].find(({ gaugeId }) => gaugeId === job.gauge_id);
  const curves: HonestCurve[] = [];
  const { elapsedS, vacuumPa, testPa } = readings;
  if (gauge !== undefined) curves.push(curve('vacuum_pa', elapsedS, vacuumPa, vacuumGauge(gauge)));
  const test = testPressureGauge(testGaugeOf(technician.technicianId, 3600));
  curves.push(curve('test_pressure_pa', elapsedS, testPa, test));
  return curves.filter(({ pa }) => pa.some((value) => Number.isFinite(value)));
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
