import type { RecordedColumn } from '../../records/recording-columns.ts';

/** From and to, in the unit of the column. */
export interface PlausibleLimits {
  readonly low: number;
  readonly high: number;
}

/**
 * Between which the readings of a column lie on any job of the trade, gauges' own errors included: far narrower than what
 * the records take, far wider than what is usual. Common practice, no source.
 *
 * Pressures absolute [Pa], temperatures [°C], those of `line_c` [K], power [W], masses [kg].
 */
export const plausibleLimits: Readonly<Record<RecordedColumn, PlausibleLimits>> = {
  // A compound gauge shows the air, or the pressure test that came before.
  vacuum_pa: { low: 0, high: 200_000 },
  // 725 psi; a gauge's zero may be off by some psi on an evacuated system.
  test_pressure_pa: { low: 0, high: 5_000_000 },
  line_c: { low: 273.15 - 45, high: 273.15 + 75 },
  scale_kg: { low: -80, high: 150 },
  suction_pa: { low: 0, high: 4_500_000 },
  liquid_pa: { low: 0, high: 5_500_000 },
  suction_line_c: { low: -50, high: 110 },
  liquid_line_c: { low: -50, high: 95 },
  outdoor_c: { low: -45, high: 60 },
  indoor_c: { low: -10, high: 50 },
  indoor_wet_bulb_c: { low: -15, high: 40 },
  supply_c: { low: -25, high: 75 },
  return_c: { low: -10, high: 50 },
  compressor_w: { low: 0, high: 60_000 },
};
