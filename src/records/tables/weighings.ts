import { choice, identifier, instant, quantity } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const weighings = table('weighings', 'weighing of refrigerant in or out', ['weighing_id'], {
  weighing_id: identifier('The weighing'),
  job_id: identifier('The job').optional(),
  cylinder_id: identifier('The cylinder').optional(),
  refrigerant: identifier('ASHRAE 34 designation of what was weighed').optional(),
  direction: choice(['in', 'out'], 'Into the system or out of it').optional(),
  at: instant('When').optional(),
  start_kg: quantity('kg', 'Scale before; with the cylinder on it, or set to 0', -1000, 5000).optional(),
  end_kg: quantity('kg', 'Scale after', -1000, 5000).optional(),
  hose_residual_kg: quantity('kg', 'Refrigerant left in hoses and manifold', 0, 10).optional(),
  system_id: identifier('The system').optional(),
  purpose: choice(['install', 'retrofit', 'leak', 'seasonal', 'recovery'], 'Why').optional(),
  leak_id: identifier('The leak it belongs to').optional(),
});

export type Weighing = RowOf<typeof weighings>;
