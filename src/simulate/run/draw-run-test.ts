import type { Random } from '../../numerics/random.ts';
import type { Refrigerant } from '../line-adders.ts';
import type { System } from '../system.ts';
import type { RatedFigures } from './machine.ts';
import type { CycleFaults } from './cycle-options.ts';
import type { PipeClamp, RunGauge, RunInstruments } from './run-instruments.ts';
import type { RunColumn, RunPattern, RunTestOptions } from './run-test.ts';

/** What a run test is drawn for. */
export interface DrawRunTestOptions {
  readonly system: Pick<System, 'type' | 'refrigerant' | 'ratedCoolingW' | 'metering' | 'compressor'>;
  /** What is truly in it; absent: what the machine is made for. */
  readonly refrigerant?: Refrigerant;
  /** True mass over the right one; absent: drawn. */
  readonly chargeRatio?: number | undefined;
  readonly outdoorC: number;
  readonly atmospherePa: number;
  readonly intervalS?: number | undefined;
  /** False where nobody adds or takes out charge while it runs. */
  readonly mayTrim?: boolean;
}

/** Share of tests with each fault beside what the charge is; the rest has none. */
const FAULT_SHARES = { 'poor-airflow': 0.07, restriction: 0.04, 'non-condensables': 0.03, none: 0.86 } as const;
/** Charge further off than this is a pattern. */
const PATTERN_RATIO = 0.08;
/** Outdoors below this, most systems are run heating [°C]. */
const HEATING_BELOW_C = 11;
const PSI_PA = 6894.757293168;

/** Draws a run test with realistic shares of faults, weather and instruments. Shares: invented. */
export function drawRunTest(random: Random, options: DrawRunTestOptions): RunTestOptions {
  const { system, atmospherePa } = options;
  const outdoorC = Math.max(-8, Math.min(44, options.outdoorC));
  const ductless = system.type !== 'ducted';
  const heats = outdoorC < HEATING_BELOW_C && random.chance(ductless ? 0.75 : 0.5);
  const indoorC = heats
    ? random.uniform(18, 22)
    : outdoorC < 16
      ? random.uniform(20.5, 24)
      : random.uniform(22.5, 28.5);
  const indoorWetBulbC = indoorC - random.uniform(5.2, 9) * (indoorC / 26);
  const metering = system.metering;
  const fixedTestMode = system.compressor === 'variable' && random.chance(0.5);
  const { faults, pattern } = drawFaults(random, options.chargeRatio);
  const restS = Math.round(random.uniform(120, 480));
  const cutShort = random.chance(0.06);
  const runsS = cutShort ? random.uniform(180, 600) : random.uniform(960, 1800);
  const durationS = Math.round(restS + runsS);
  const chargeRatio = faults.chargeRatio ?? 1;
  const trims =
    options.mayTrim !== false && !cutShort && !heats && Math.abs(chargeRatio - 1) > 0.06 && random.chance(0.12);
  // Most who trim come nearer to the right charge.
  const trimmedRatio = 1 + (chargeRatio - 1) * random.uniform(0, 0.5);
  const trim = trims
    ? { atS: Math.round(restS + runsS * random.uniform(0.3, 0.55)), chargeRatio: trimmedRatio }
    : undefined;
  const blank = drawBlank(random, ductless);
  const upsetKind = random.chance(0.015)
    ? 'clamp-off'
    : random.chance(0.01) && !blank.has('liquidPa')
      ? 'swapped'
      : undefined;
  return {
    random,
    refrigerant: options.refrigerant ?? system.refrigerant,
    madeFor: system.refrigerant,
    ratedCoolingW: system.ratedCoolingW,
    metering,
    meteringLocation: ductless ? 'outdoor' : 'indoor',
    rated: drawRated(random),
    compressor: system.compressor,
    fixedTestMode,
    heating: heats,
    faults,
    // What is wrong in the end counts.
    pattern: trims && (pattern === 'low-charge' || pattern === 'overcharge') ? chargePattern(trimmedRatio) : pattern,
    // In cooling nobody runs a system in frost.
    outdoorC: heats ? outdoorC : Math.max(4, outdoorC),
    outdoorDriftKPerS: random.normal(0, 0.0004),
    indoorC,
    indoorWetBulbC,
    atmospherePa,
    restS,
    durationS,
    intervalS: options.intervalS ?? random.choice([5, 5, 10]),
    trim,
    hunting:
      metering !== 'fixed' && random.chance(0.2)
        ? { amplitudeK: random.uniform(1, 2), periodS: random.uniform(60, 180) }
        : undefined,
    disturbed: true,
    instruments: drawInstruments(random),
    upset:
      upsetKind === undefined
        ? undefined
        : {
            kind: upsetKind,
            atS: Math.round(restS + runsS * random.uniform(0.2, 0.9)),
            clamp: random.choice(['suction', 'liquid'] as const),
          },
    blank,
  };
}

/** Machines differ in what they show at rating. The liquid cannot be colder than the air, nor the blend boil at once. */
function drawRated(random: Random): RatedFigures {
  const approachK = random.uniform(9.5, 13);
  return {
    approachK,
    subcoolingK: random.uniform(4.5, Math.min(7.5, 0.7 * (approachK - 2.5))),
    superheatK: random.uniform(5, 6.3),
    evaporatingC: random.uniform(6.5, 9.5),
  };
}

function drawFaults(random: Random, givenRatio: number | undefined): { faults: CycleFaults; pattern: RunPattern } {
  const fault = random.weighted(FAULT_SHARES);
  const drawnRatio = random.chance(0.14)
    ? random.choice([random.uniform(0.65, 0.9), random.uniform(1.1, 1.35)])
    : random.normal(1, 0.015);
  const chargeRatio = Math.max(0.55, Math.min(1.4, givenRatio ?? drawnRatio));
  if (fault === 'poor-airflow')
    return { faults: { chargeRatio, airflowRatio: random.uniform(0.5, 0.75) }, pattern: fault };
  if (fault === 'restriction')
    return { faults: { chargeRatio, restrictionRatio: random.uniform(0.82, 0.92) }, pattern: fault };
  if (fault === 'non-condensables') {
    return { faults: { chargeRatio, nonCondensableRatio: random.uniform(0.06, 0.22) }, pattern: fault };
  }
  return { faults: { chargeRatio }, pattern: chargePattern(chargeRatio) };
}

function chargePattern(chargeRatio: number): RunPattern {
  if (chargeRatio < 1 - PATTERN_RATIO) return 'low-charge';
  return chargeRatio > 1 + PATTERN_RATIO ? 'overcharge' : 'none';
}

function drawInstruments(random: Random): RunInstruments {
  const fine = random.chance(0.7);
  const gauge = (): RunGauge => ({
    gainRatio: random.normal(1, fine ? 0.003 : 0.006),
    zeroPa: random.normal(0, fine ? 1500 : 4000),
    driftPaPerS: random.normal(0, 0.4),
    noisePa: fine ? 600 : 2000,
    stepPa: (fine ? 0.1 : 1) * PSI_PA,
  });
  const clamp = (): PipeClamp => ({
    biasK: random.normal(0, 0.25),
    airShare: Math.abs(random.normal(0, 0.015)),
    lagS: random.uniform(20, 60),
    noiseK: 0.05,
  });
  const probe = () => random.normal(0, 0.3);
  return {
    suction: gauge(),
    liquid: gauge(),
    suctionClamp: clamp(),
    liquidClamp: clamp(),
    airBiasK: [probe(), probe(), probe(), probe(), probe()],
  };
}

/** What nobody logged; most ductless units have one service port only. */
function drawBlank(random: Random, ductless: boolean): ReadonlySet<RunColumn> {
  const blank = new Set<RunColumn>();
  const drop = (share: number, ...names: RunColumn[]) => {
    if (random.chance(share)) for (const name of names) blank.add(name);
  };
  drop(ductless ? 0.75 : 0.03, 'liquidPa');
  drop(ductless ? 0.5 : 0.03, 'liquidLineC');
  drop(0.12, 'outdoorC');
  drop(0.15, 'indoorC');
  drop(0.3, 'indoorWetBulbC');
  drop(0.35, 'supplyC', 'returnC');
  drop(0.55, 'compressorW');
  return blank;
}
