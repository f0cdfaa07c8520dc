import { choice, date, identifier, quantity, ratio } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const gauges = table('gauges', 'vacuum gauge', ['gauge_id'], {
  gauge_id: identifier('The gauge'),
  kind: choice(['thermal', 'capacitance', 'piezo', 'compound'], 'How it measures').optional(),
  accuracy_ratio: ratio('Accuracy as a ratio of the reading', 0, 1).optional(),
  step_pa: quantity('Pa', 'Resolution', 0, 10000).optional(),
  range_max_pa: quantity('Pa', 'Highest pressure it reads, absolute', 0, 30000000.0).optional(),
  calibrated_on: date('Day of the last calibration').optional(),
});

export type Gauge = RowOf<typeof gauges>;
