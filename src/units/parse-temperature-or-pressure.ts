import { parseQuantity } from './parse-quantity.ts';
import type { Quantity } from './quantity.ts';

/** A temperature, or a pressure that says what it counts from. */
export type TemperatureOrPressure = Extract<Quantity, { kind: 'temperature' | 'absolute-pressure' | 'gauge-pressure' }>;

/**
 * A temperature or a pressure as a person writes it: `40F`, `-32.5C`, `118psig`, `8.2bar`, `250 micron`.
 *
 * @throws DryholdError `unreadable-quantity`, `out-of-range`
 * @example parseTemperatureOrPressure('8.2bar') // { kind: 'absolute-pressure', pressurePa: 820000 }
 */
export function parseTemperatureOrPressure(text: string): TemperatureOrPressure {
  return parseQuantity(text, ['temperature', 'absolute-pressure', 'gauge-pressure'], {
    wanted: 'a temperature or a pressure, such as 40F, 4.5 C, 118 psig, 133 psia, 8.2 bar (absolute) or 250 micron',
  });
}
