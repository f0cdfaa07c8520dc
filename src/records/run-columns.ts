/** Columns of the readings that a running system shows itself by. */
export const runColumns = [
  'suction_pa',
  'liquid_pa',
  'suction_line_c',
  'liquid_line_c',
  'outdoor_c',
  'indoor_c',
  'indoor_wet_bulb_c',
  'supply_c',
  'return_c',
  'compressor_w',
] as const;

export type RunColumn = (typeof runColumns)[number];
