import type { UnitSystem } from './display.ts';

/** Something whose texts are written in the units of a reader when he is known: what they say is worked out before, and once. */
export type InUnits<Value> = (units: UnitSystem) => Value;

/**
 * Both systems, the one that a reader wants first.
 *
 * @example unitsFrom('si') // ['si', 'ip']
 */
export function unitsFrom(first: UnitSystem): readonly [UnitSystem, UnitSystem] {
  return first === 'ip' ? ['ip', 'si'] : ['si', 'ip'];
}
