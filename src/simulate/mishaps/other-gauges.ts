import type { VacuumGauge } from '../vacuum-gauges.ts';
import type { GaugeDrift } from './gauge-drift.ts';

const MICRON_PA = 0.133322368;
type Row = [string, 'thermal' | 'capacitance', number, number, number, string, number, number, number];

/** Id, kind, accuracy, step and range [µm], calibrated, gain, noise, lag [s]. */
const rows: readonly Row[] = [
  ['gauge-21', 'thermal', 0.15, 10, 5_000, '2023-02-20', 1.12, 0.02, 6],
  ['gauge-22', 'capacitance', 0.05, 1, 760_000, '2025-05-26', 0.985, 0.004, 0.3],
  ['gauge-23', 'thermal', 0.15, 5, 2_500, '2022-11-07', 0.88, 0.03, 9],
  ['gauge-24', 'thermal', 0.1, 1, 20_000, '2025-01-30', 1.02, 0.0015, 15],
];

/**
 * Gauges of other makes that are lent out: coarse steps, one that reads up to the air, one whose range ends early, one that
 * smooths and lags. Invented.
 */
export const lentGauges: readonly VacuumGauge[] = rows.map(
  ([gaugeId, kind, accuracyRatio, stepMicrons, rangeMicrons, calibratedOn, gainRatio, noiseRatio, lagS]) => ({
    gaugeId,
    kind,
    accuracyRatio,
    stepPa: stepMicrons * MICRON_PA,
    rangeMaxPa: rangeMicrons * MICRON_PA,
    calibratedOn,
    gainRatio,
    noiseRatio,
    lagS,
    // Logs as often as the one that it stands in for.
    intervalS: Number.NaN,
  }),
);

/** A gauge that is not what it was: drift over the year, as a ratio of the reading, and under way. */
export interface AgeingGauge extends GaugeDrift {
  readonly perYearRatio: number;
}

/** By id; all other gauges keep their gain. Invented. */
export const ageingGauges: ReadonlyMap<string, AgeingGauge> = new Map([
  ['gauge-02', { perYearRatio: 0.09, driftPerS: 2e-6, walkRatio: 1e-4 }],
  ['gauge-08', { perYearRatio: -0.07, driftPerS: -3e-6, walkRatio: 2e-4 }],
  ['gauge-11', { perYearRatio: 0.14, driftPerS: 0, walkRatio: 4e-4 }],
]);
