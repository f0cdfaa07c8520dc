import type { UnitSystem } from './display.ts';

/** Something whose texts are written in the units of a reader when he is known: what they say is worked out before, and once. */
export type InUnits<Value> = (units: UnitSystem) => Value;
