import type { Facts } from '../records/tables/facts.ts';

/** A column of the readings as people call it. */
export const columnWords: Readonly<Record<NonNullable<Facts['unit_column']>, string>> = {
  vacuum_pa: 'the vacuum gauge',
  test_pressure_pa: 'the gauge of the pressure test',
  line_c: 'the clamp on the line',
  scale_kg: 'the scale',
  suction_pa: 'the suction gauge',
  liquid_pa: 'the liquid gauge',
  suction_line_c: 'the clamp on the suction line',
  liquid_line_c: 'the clamp on the liquid line',
  outdoor_c: 'the outdoor thermometer',
  indoor_c: 'the indoor thermometer',
  indoor_wet_bulb_c: 'the wet bulb indoors',
  supply_c: 'the thermometer of the supply air',
  return_c: 'the thermometer of the return air',
  compressor_w: 'the power of the compressor',
  elapsed_s: 'the clock of the log',
};
