import type { MeasuredMaterial } from '../job-material.ts';
import { powerUnit } from './power-unit.ts';
import { testPressureUnit } from './pressure-unit.ts';
import type { ScannedSeries } from './scanned-series.ts';
import { temperatureUnit } from './temperature-unit.ts';
import { timeUnit } from './time-unit.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';
import { vacuumUnit } from './vacuum-unit.ts';

/** Every column that looks like another unit by the readings alone; of each kind one, the time first, since all rests on it. */
export function otherUnits(all: readonly ScannedSeries[], material: MeasuredMaterial): UnitSuspicion[] {
  return [
    timeUnit(all),
    vacuumUnit(all, material),
    testPressureUnit(all, material),
    temperatureUnit(all, material),
    powerUnit(all, material),
  ].filter((found) => found !== undefined);
}
