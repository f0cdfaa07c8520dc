import { expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { messageText } from '../../src/checks/message-text.ts';

const say = (name: string, value: number | string | undefined, system: 'ip' | 'si' = 'ip') =>
  messageText({ messages: { said: `{${name}}` } } as unknown as Check, 'said', { [name]: value }, system);

// 1 µm = 0.133322368 Pa, 1 oz = 0.028349523125 kg, 1 ft³ = 28.316846592 L (by definition).
test.each([
  ['deepest_pa', 66.661184, '500 µm', '66.7 Pa'],
  ['leak_pa_per_s', 0.0133322368, '6.00 µm/min', '0.800 Pa/min'],
  ['leak_loss_high_kg_per_year', 0.28349523125, '10 oz', '280 g'],
  ['charged_kg', 0.1, '3.5 oz', '100 g'],
  ['line_low_k', 294.26, '70.0 °F', '21.1 °C'],
  ['uncertain_off_k', 2.5, '4.5 °F', '2.5 K'],
  ['tested_volume_l', 28.316846592, '1.00 ft³', '28.3 L'],
  ['isolation_s', 300, '5 min', '5 min'],
  ['speed_ratio', 0.4, '40.0 %', '40.0 %'],
  ['pump_rate_per_s', 0.04, '0.04 per s', '0.04 per s'],
  ['pulls', 3, '3', '3'],
])('the suffix of %s is its unit: %d is %s, %s', (name, value, ip, si) => {
  expect([say(name, value), say(name, value, 'si')]).toEqual([ip, si]);
});

test('words stand as they are, and what is not there is unknown', () => {
  expect([say('rise_shape', 'leak'), say('deepest_pa', undefined)]).toEqual(['leak', 'unknown']);
});
