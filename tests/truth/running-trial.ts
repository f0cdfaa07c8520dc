import { runFacts } from '../../src/facts/run-test/run-facts.ts';
import { Random } from '../../src/numerics/random.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import type { Job } from '../../src/records/tables/jobs.ts';
import type { Refrigerant } from '../../src/simulate/line-adders.ts';
import { drawRunTest } from '../../src/simulate/run/draw-run-test.ts';
import type { RunTestLog, RunTestOptions } from '../../src/simulate/run/run-test.ts';
import { simulateRunTest } from '../../src/simulate/run/run-test-log.ts';
import { runModes, type RunSeries } from '../../src/traces/run-series.ts';
import type { TrialName } from './claim.ts';

/** How the run of a trial is made: as in a fleet, with good instruments, or with another refrigerant than on record. */
export type RunningKind = 'usual' | 'good-instruments' | 'other-refrigerant';

export interface RunningTrial {
  readonly plan: TrialName & { readonly options: RunTestOptions };
  readonly log: RunTestLog;
  readonly facts: Partial<Facts>;
}

const recorded: readonly Refrigerant[] = ['R-410A', 'R-32', 'R-454B', 'R-407C'];

/** Draws a run test, and what is found of it. */
export function runningTrial(seed: number, number: number, kind: RunningKind = 'usual'): RunningTrial {
  const random = new Random(seed, number);
  const refrigerant = random.choice(recorded);
  const filled =
    kind === 'other-refrigerant' ? random.choice(recorded.filter((one) => one !== refrigerant)) : refrigerant;
  const isDucted = random.chance(0.6);
  const metering = isDucted ? random.choice(['fixed', 'txv'] as const) : ('eev' as const);
  const system = {
    type: isDucted ? ('ducted' as const) : ('ductless' as const),
    refrigerant,
    ratedCoolingW: random.uniform(2600, 14_000),
    metering,
    compressor: isDucted ? ('single' as const) : ('variable' as const),
  };
  const drawn = drawRunTest(random, {
    system,
    refrigerant: filled,
    outdoorC: random.uniform(14, 40),
    atmospherePa: 101_325 * random.uniform(0.83, 1),
  });
  const options = kind === 'good-instruments' ? { ...drawn, ...withGoodInstruments(random, drawn) } : drawn;
  const log = simulateRunTest(options);
  const isGood = kind === 'good-instruments';
  const job: Partial<Job> = {
    refrigerant,
    metering,
    compressor: system.compressor,
    metering_location: options.meteringLocation,
    ...(system.compressor === 'variable' ? { fixed_test_mode: options.fixedTestMode } : {}),
    clamp_accuracy_k: isGood ? 0.1 : 0.5,
    pressure_accuracy_ratio: isGood ? 0.0025 : 0.01,
    barometer_pa: options.atmospherePa,
  };
  const series = seriesOf(log);
  const changedS = options.trim?.atS;
  return {
    plan: { seed, number, kind, options },
    log,
    facts: runFacts(series, { job }, changedS),
  };
}

/** Clamps good to 0.1 K and gauges to a quarter per cent, at 95 %. */
function withGoodInstruments(
  random: Random,
  { instruments }: RunTestOptions,
): Pick<RunTestOptions, 'instruments' | 'upset'> {
  const clamp = () => ({ biasK: random.normal(0, 0.05), airShare: 0, lagS: 25, noiseK: 0.05 });
  const gauge = () => ({
    gainRatio: 1 + random.normal(0, 0.00125),
    zeroPa: 0,
    driftPaPerS: 0,
    noisePa: 500,
    stepPa: 690,
  });
  return {
    instruments: { ...instruments, suction: gauge(), liquid: gauge(), suctionClamp: clamp(), liquidClamp: clamp() },
    upset: undefined,
  };
}

/** The readings as the store hands them out. */
function seriesOf({ readings, modes }: RunTestLog): RunSeries {
  const mode = Float64Array.from(readings.elapsedS, (atS) => {
    const span = modes.findLast(({ fromS }) => fromS <= atS);
    return span?.mode === undefined ? 0 : runModes.indexOf(span.mode) + 1;
  });
  const all = {
    suction_pa: readings.suctionPa,
    liquid_pa: readings.liquidPa,
    suction_line_c: readings.suctionLineC,
    liquid_line_c: readings.liquidLineC,
    outdoor_c: readings.outdoorC,
    indoor_c: readings.indoorC,
    indoor_wet_bulb_c: readings.indoorWetBulbC,
    supply_c: readings.supplyC,
    return_c: readings.returnC,
    compressor_w: readings.compressorW,
  };
  const columns = Object.fromEntries(
    Object.entries(all).filter(([, values]) => values.some((value) => !Number.isNaN(value))),
  );
  return { elapsedS: readings.elapsedS, columns, mode };
}
