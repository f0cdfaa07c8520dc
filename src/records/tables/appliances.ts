import { choice, date, flag, identifier, quantity } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const appliances = table('appliances', 'refrigerant-containing appliance', ['system_id'], {
  system_id: identifier('The system'),
  site_id: identifier('Where it stands').optional(),
  refrigerant: identifier('ASHRAE 34 designation').optional(),
  full_charge_kg: quantity('kg', 'Full charge', 0, 50000).optional(),
  sector: choice(
    [
      'comfort',
      'light-commercial-comfort',
      'residential-comfort',
      'commercial-refrigeration',
      'industrial-process',
      'transport',
    ],
    'Sector that the rules name',
  ).optional(),
  installed_on: date('Day of installation').optional(),
  retired_on: date('Day of retirement').optional(),
  full_charge_basis: identifier(
    'How the full charge is known: maker, calculated, measured, or range (the charge is then its middle)',
  ).optional(),
  jurisdiction: identifier('Whose rules apply: US or EU, with what else you like after a hyphen').optional(),
  hermetic: flag('Whether hermetically sealed').optional(),
  leak_detection: flag('Whether it has leak detection').optional(),
});

export type Appliance = RowOf<typeof appliances>;
