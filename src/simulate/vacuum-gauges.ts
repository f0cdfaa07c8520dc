import type { Gauge } from '../records/tables/gauges.ts';

/** A vacuum gauge with what its user does not know about it. */
export interface VacuumGauge {
  readonly gaugeId: string;
  readonly kind: 'thermal' | 'capacitance' | 'compound';
  readonly accuracyRatio: number;
  readonly stepPa: number;
  readonly rangeMaxPa: number;
  readonly calibratedOn: string;
  /** Reads that many times the truth. */
  readonly gainRatio: number;
  /** Noise of a reading, relative. */
  readonly noiseRatio: number;
  /** Time constant [s]. */
  readonly lagS: number;
  /** Time between readings [s]. */
  readonly intervalS: number;
}

const MICRON_PA = 0.133322368;
type Row = [number, 'thermal' | 'capacitance', number, number, number, string, number, number, number, number];

/** Number, kind, accuracy, step and range [µm], calibrated, gain, noise, lag [s], interval [s]. */
const rows: readonly Row[] = [
  [1, 'thermal', 0.1, 1, 20_000, '2025-05-12', 1.03, 0.008, 1.2, 1],
  [2, 'thermal', 0.1, 1, 20_000, '2025-02-03', 0.96, 0.011, 1.5, 2],
  [3, 'thermal', 0.1, 1, 25_000, '2025-06-20', 1.01, 0.006, 1, 2],
  [4, 'capacitance', 0.05, 1, 30_000, '2025-04-28', 0.99, 0.005, 0.8, 1],
  [5, 'thermal', 0.1, 5, 12_000, '2024-03-11', 1.09, 0.015, 2.2, 3],
  [6, 'thermal', 0.1, 1, 20_000, '2025-01-15', 0.98, 0.01, 1.4, 2],
  [7, 'capacitance', 0.05, 1, 30_000, '2025-03-30', 1.02, 0.006, 0.9, 1],
  [8, 'thermal', 0.1, 1, 20_000, '2025-05-05', 1.04, 0.012, 1.6, 2],
  [9, 'thermal', 0.15, 10, 19_000, '2023-10-09', 0.9, 0.014, 2, 5],
  [10, 'thermal', 0.1, 1, 25_000, '2025-06-02', 1, 0.007, 1.1, 2],
  [11, 'thermal', 0.1, 5, 12_000, '2024-11-18', 1.06, 0.013, 1.9, 3],
  [12, 'thermal', 0.1, 1, 20_000, '2025-04-14', 0.97, 0.009, 1.3, 2],
];

/** Each technician's own gauge, by number, and one compound gauge that stands in at times. */
export const vacuumGauges: readonly VacuumGauge[] = rows.map(
  ([number, kind, accuracyRatio, stepMicrons, rangeMicrons, calibratedOn, gainRatio, noiseRatio, lagS, intervalS]) => ({
    gaugeId: `gauge-${String(number).padStart(2, '0')}`,
    kind,
    accuracyRatio,
    stepPa: stepMicrons * MICRON_PA,
    rangeMaxPa: rangeMicrons * MICRON_PA,
    calibratedOn,
    gainRatio,
    noiseRatio,
    lagS,
    intervalS,
  }),
);

/** The gauge of a technician, `t01` to `t12`. */
export function gaugeOf(technicianId: string): VacuumGauge {
  return vacuumGauges[Number(technicianId.slice(1)) - 1];
}

export const compoundGauge: VacuumGauge = {
  gaugeId: 'gauge-13',
  kind: 'compound',
  accuracyRatio: 0.01,
  stepPa: 1000,
  rangeMaxPa: 200_000,
  calibratedOn: '2024-06-01',
  gainRatio: 1,
  noiseRatio: 0.002,
  lagS: 0.5,
  intervalS: 2,
};

/** The `gauges` row of a gauge. */
export function gaugeRow(gauge: VacuumGauge): Gauge {
  return {
    gauge_id: gauge.gaugeId,
    kind: gauge.kind,
    accuracy_ratio: gauge.accuracyRatio,
    step_pa: Math.round(gauge.stepPa * 1e6) / 1e6,
    range_max_pa: Math.round(gauge.rangeMaxPa * 100) / 100,
    calibrated_on: gauge.calibratedOn,
  };
}
