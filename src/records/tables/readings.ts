import { choice, identifier, overQuantity, quantity } from '../column.ts';
import { phaseMarks } from '../phase-marks.ts';
import { type RowOf, table } from '../table.ts';

export const readings = table(
  'readings',
  'time-stamped row of what the instruments showed',
  ['job_id', 'gauge', 'elapsed_s'],
  {
    job_id: identifier('The job'),
    elapsed_s: quantity('s', 'Time since the log began', -1000000000.0, 1000000000.0),
    gauge: identifier('Which gauge, where a job has several').optional(),
    vacuum_pa: overQuantity(
      'Pa',
      'Pressure by the vacuum gauge, absolute; the word over means above its range',
      0,
      200000,
    ).optional(),
    test_pressure_pa: quantity('Pa', 'Pressure of the nitrogen standing test, absolute', 0, 30000000.0).optional(),
    suction_pa: quantity('Pa', 'Suction pressure, absolute', 0, 30000000.0).optional(),
    liquid_pa: quantity('Pa', 'Liquid pressure, absolute', 0, 30000000.0).optional(),
    suction_line_c: quantity('°C', 'Suction line temperature', -100, 300).optional(),
    liquid_line_c: quantity('°C', 'Liquid line temperature', -100, 300).optional(),
    outdoor_c: quantity('°C', 'Outdoor air temperature', -100, 300).optional(),
    indoor_c: quantity('°C', 'Indoor air temperature', -100, 300).optional(),
    indoor_wet_bulb_c: quantity('°C', 'Indoor wet-bulb temperature', -100, 300).optional(),
    supply_c: quantity('°C', 'Supply air temperature', -100, 300).optional(),
    return_c: quantity('°C', 'Return air temperature', -100, 300).optional(),
    compressor_w: quantity('W', 'Power taken by the compressor', 0, 5000000.0).optional(),
    run_mode: choice(['cooling', 'heating', 'defrost'], 'What the system was doing').optional(),
    line_c: quantity('°C', 'Pipe temperature during the standing test and the vacuum', -100, 300).optional(),
    scale_kg: quantity('kg', 'What the charging scale showed', -1000, 5000).optional(),
    phase_mark: choice(phaseMarks, 'What the source says was going on; a hint').optional(),
  },
);

export type Reading = RowOf<typeof readings>;
