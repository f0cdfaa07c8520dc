import type { Random } from '../../numerics/random.ts';
import type { Refrigerant } from '../line-adders.ts';
import type { CycleFaults } from './cycle-options.ts';
import type { Metering, RatedFigures } from './machine.ts';
import type { RunInstruments } from './run-instruments.ts';

export type RunPattern = 'none' | 'low-charge' | 'overcharge' | 'restriction' | 'poor-airflow' | 'non-condensables';
export type RunMode = 'cooling' | 'heating' | 'defrost';
export type RunUpset = 'clamp-off' | 'swapped';

/** What a run test is simulated from; times from the beginning of the test, where the system is at rest. */
export interface RunTestOptions {
  readonly random: Random;
  /** What is truly in the system, and what the machine is made for; absent: the same. */
  readonly refrigerant: Refrigerant;
  readonly madeFor?: Refrigerant;
  readonly ratedCoolingW: number;
  readonly metering: Metering;
  readonly meteringLocation?: 'indoor' | 'outdoor';
  readonly rated?: RatedFigures;
  readonly compressor: 'variable' | 'staged' | 'single';
  readonly fixedTestMode?: boolean;
  readonly heating?: boolean;
  readonly faults?: CycleFaults;
  readonly pattern?: RunPattern;
  readonly outdoorC: number;
  readonly outdoorDriftKPerS?: number;
  readonly indoorC: number;
  readonly indoorWetBulbC: number;
  readonly atmospherePa?: number;
  readonly restS: number;
  /** Of the whole test, the rest included [s]. */
  readonly durationS: number;
  readonly intervalS: number;
  /** Charge is added or taken out while it runs. */
  readonly trim?: { readonly atS: number; readonly chargeRatio: number } | undefined;
  /** A valve that hunts: its superheat swings. */
  readonly hunting?: { readonly amplitudeK: number; readonly periodS: number } | undefined;
  /** Whether clouds, doors and the room's own cooling disturb it. */
  readonly disturbed?: boolean;
  readonly instruments: RunInstruments;
  readonly upset?: { readonly kind: RunUpset; readonly atS: number; readonly clamp: 'suction' | 'liquid' } | undefined;
  /** Columns that are not logged. */
  readonly blank?: ReadonlySet<RunColumn>;
}

export const runColumns = [
  'suctionPa',
  'liquidPa',
  'suctionLineC',
  'liquidLineC',
  'outdoorC',
  'indoorC',
  'indoorWetBulbC',
  'supplyC',
  'returnC',
  'compressorW',
] as const;
export type RunColumn = (typeof runColumns)[number];

/** Readings of a run test, one entry each; NaN where not read. Pressures are absolute. */
export type RunReadings = Readonly<Record<'elapsedS' | RunColumn, Float64Array>>;

/** From that moment on [s], this; undefined: at rest. */
export interface RunModeSpan {
  readonly fromS: number;
  readonly mode: RunMode | undefined;
}

/** What was true of a run test. */
export interface RunTestTruth {
  /** Means over the last steady state in cooling, at the service valves, free of instruments; absent where none was reached. */
  readonly superheatK?: number;
  /** Also absent where the liquid line carries two phases by design. */
  readonly subcoolingK?: number;
  readonly steadyStartS?: number;
  readonly steadyEndS?: number;
  readonly pattern: RunPattern;
  readonly refrigerant: Refrigerant;
  /** At the end of the rest: the pressure, and the temperature of the coldest place. */
  readonly restPa: number;
  readonly restK: number;
  readonly upset?: RunUpset;
}

export interface RunTestLog {
  readonly readings: RunReadings;
  readonly modes: readonly RunModeSpan[];
  /** At the service valves at the time of each reading, free of instruments [K]. */
  readonly trueSuperheatsK: Float64Array;
  readonly trueSubcoolingsK: Float64Array;
  readonly truth: RunTestTruth;
}
