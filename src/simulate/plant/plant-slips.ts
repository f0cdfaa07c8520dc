import type { Random } from '../../numerics/random.ts';
import type { Cylinder } from '../../records/tables/cylinders.ts';
import type { Weighing } from '../../records/tables/weighings.ts';
import { dateOfDay } from '../calendar.ts';
import type { CylinderTruth } from '../cylinder-truth.ts';

/** Weighings that name no cylinder: invented. */
const UNNAMED = 3;

/** Rows as the shop has them, and what is planted in them. */
export interface PlantSlips {
  readonly weighings: readonly Weighing[];
  readonly cylinders: readonly Cylinder[];
  readonly cylinderTruth: readonly CylinderTruth[];
}

/** Leaves the cylinder off some weighings, and books one cylinder in after it was first weighed: real record-keeping. */
export function plantSlips(random: Random, weighings: readonly Weighing[], cylinders: readonly Cylinder[]): PlantSlips {
  const unnamed = new Set<Weighing>();
  const leaks = weighings.filter(({ purpose }) => purpose === 'leak');
  while (unnamed.size < Math.min(UNNAMED, leaks.length)) unnamed.add(random.choice(leaks));
  // One weighing of its cylinder lies days before all others.
  const first = new Map<string | undefined, Weighing>();
  const second = new Map<string | undefined, Weighing>();
  for (const row of weighings) {
    const seen = first.has(row.cylinder_id) ? second : first;
    if (!seen.has(row.cylinder_id)) seen.set(row.cylinder_id, row);
  }
  const early = random.choice(
    [...first.values()].filter((row) => {
      const next = second.get(row.cylinder_id);
      return !unnamed.has(row) && row.purpose === 'leak' && next !== undefined && dayOf(next) - dayOf(row) > 3;
    }),
  );
  const cameOnDay = early === undefined ? 0 : dayOf(early) + random.integer(1, 3);
  return {
    weighings: weighings.map((row) => {
      const { cylinder_id: _, ...rest } = row;
      return unnamed.has(row) ? rest : row;
    }),
    cylinders: cylinders.map((row) =>
      row.cylinder_id === early?.cylinder_id ? { ...row, acquired_on: dateOfDay(cameOnDay) } : row,
    ),
    cylinderTruth: weighings.flatMap((row) => {
      if (row === early) return truthOf(row, 'early');
      return unnamed.has(row) ? truthOf(row, 'unnamed') : [];
    }),
  };
}

/** Whole days since the first. */
function dayOf({ at = '' }: Weighing): number {
  return Math.round((Date.parse(at.slice(0, 10)) - Date.parse(dateOfDay(0))) / 86_400_000);
}

function truthOf({ cylinder_id, at, weighing_id, start_kg = 0, end_kg = 0 }: Weighing, kind: 'early' | 'unnamed') {
  if (cylinder_id === undefined || at === undefined) return [];
  return [{ cylinder_id, kind, at, weighing_id, kg: Math.round(Math.abs(start_kg - end_kg) * 100) / 100 }];
}
