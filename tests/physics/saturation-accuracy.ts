import type { Refrigerant } from '../../src/physics/index.ts';
import {
  composeRefrigerant,
  fastSaturationOf,
  refrigerantDesignations,
  refrigerantNamed,
  saturationAtPressure,
  saturationAtTemperature,
} from '../../src/physics/index.ts';
import { referenceCells } from '../reference-rows.ts';

/** A largest deviation, and the temperature [°C] of the row where it stands. */
export interface Worst {
  value: number;
  atC: number;
}

/** How far saturation strays from the rows of a table, for one refrigerant. */
export interface SaturationAccuracy {
  readonly refrigerant: string;
  readonly rows: number;
  /** Rows that the equations gave no solution for, or that lie outside the fast table. */
  unsolved: number;
  outside: number;
  /** Temperature at the row's pressures [K] and densities [ratio], by the equations and by the fast tables. */
  readonly equations: { readonly temperatureK: Worst; readonly liquid: Worst; readonly vapour: Worst };
  readonly tables: { readonly temperatureK: Worst; readonly liquid: Worst; readonly vapour: Worst };
}

/** Blends that the tables of others hold and the project has no name for, by mass. */
const composed: Record<string, Record<string, number>> = {
  'R-407A': { 'R-32': 0.2, 'R-125': 0.4, 'R-134a': 0.4 },
  'R-450A': { 'R-134a': 0.42, 'R-1234ze(E)': 0.58 },
};

/** A refrigerant of a reference table: by name, or composed where it has none. */
export function referenceRefrigerant(designation: string): Refrigerant {
  return designation in composed
    ? composeRefrigerant(designation, composed[designation])
    : refrigerantNamed(designation);
}

/** Compares every row of `tests/references/<key>/values.csv`, by refrigerant. */
export function saturationAccuracy(key: string): SaturationAccuracy[] {
  const cells = referenceCells(key);
  return [...new Set(cells.map(({ refrigerant }) => refrigerant))].map((refrigerant) => {
    const rows = cells.filter((row) => row.refrigerant === refrigerant);
    const accuracy = blank(refrigerant, rows.length);
    for (const row of rows) compare(accuracy, row);
    return accuracy;
  });
}

function compare(accuracy: SaturationAccuracy, row: Record<string, string>): void {
  const [celsius, bubblePa, dewPa, liquid, vapour] = [
    row.temperature_c,
    row.bubble_pa,
    row.dew_pa,
    row.liquid_kg_per_m3,
    row.vapour_kg_per_m3,
  ].map(Number);
  const kelvin = celsius + 273.15;
  const refrigerant = referenceRefrigerant(row.refrigerant);
  const solved = saturationAtTemperature(refrigerant, kelvin);
  const bubble = saturationAtPressure(refrigerant, bubblePa);
  const dew = saturationAtPressure(refrigerant, dewPa);
  if (solved.converged && bubble.converged && dew.converged) {
    const { equations } = accuracy;
    note(equations.temperatureK, bubble.bubbleK - kelvin, celsius);
    note(equations.temperatureK, dew.dewK - kelvin, celsius);
    note(equations.liquid, solved.liquidKgPerM3 / liquid - 1, celsius);
    note(equations.vapour, solved.vapourKgPerM3 / vapour - 1, celsius);
  } else accuracy.unsolved += 1;
  if (!refrigerantDesignations.includes(row.refrigerant)) return;
  const fast = fastSaturationOf(row.refrigerant);
  const read = [
    fast.bubbleK(bubblePa) - kelvin,
    fast.dewK(dewPa) - kelvin,
    fast.liquidKgPerM3(kelvin) / liquid - 1,
    fast.vapourKgPerM3(kelvin) / vapour - 1,
  ];
  if (read.every(Number.isFinite)) {
    const { tables } = accuracy;
    note(tables.temperatureK, read[0], celsius);
    note(tables.temperatureK, read[1], celsius);
    note(tables.liquid, read[2], celsius);
    note(tables.vapour, read[3], celsius);
  } else accuracy.outside += 1;
}

function note(worst: Worst, deviation: number, atC: number): void {
  if (Math.abs(deviation) > worst.value) Object.assign(worst, { value: Math.abs(deviation), atC });
}

function blank(refrigerant: string, rows: number): SaturationAccuracy {
  const side = () => ({ temperatureK: none(), liquid: none(), vapour: none() });
  return { refrigerant, rows, unsolved: 0, outside: 0, equations: side(), tables: side() };
}

function none(): Worst {
  return { value: 0, atC: Number.NaN };
}
