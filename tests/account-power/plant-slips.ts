import type { Random } from '../../src/numerics/random.ts';
import type { DrawnCylinder, DrawnWeighing } from './drawn-cylinder.ts';
import { typedSlip } from './typed-slip.ts';

const slips = ['digits-swapped', 'digit-wrong', 'point-moved'] as const;

/** Mistypes weights, and writes weighings for other cylinders; of a cylinder one thing at most is wrong. */
export function plantSlips(random: Random, cylinders: readonly DrawnCylinder[]): void {
  for (const cylinder of cylinders) {
    if (cylinder.planted !== null || cylinder.weighings.length === 0) continue;
    const kind = random.weighted({ none: 0.9, slip: 0.06, misplaced: 0.04 });
    const weighing = random.choice(cylinder.weighings);
    if (kind === 'slip') mistype(random, cylinder, weighing);
    if (kind === 'misplaced') misplace(random, cylinder, weighing, cylinders);
  }
}

function mistype(random: Random, cylinder: DrawnCylinder, weighing: DrawnWeighing): void {
  const which = random.choice(['start', 'end'] as const);
  const how = random.choice(slips);
  const meantKg = weighing[`${which}Kg`];
  const kg = typedSlip(random, meantKg, weighing.stepKg, how);
  if (kg === null) return;
  weighing[`${which}Kg`] = kg;
  cylinder.planted = { kind: 'slip', weighing, which, how, kg: kg - meantKg };
}

function misplace(
  random: Random,
  cylinder: DrawnCylinder,
  weighing: DrawnWeighing,
  cylinders: readonly DrawnCylinder[],
): void {
  const open = cylinders.filter(
    (one) =>
      one !== cylinder &&
      one.planted === null &&
      one.record.refrigerant === weighing.refrigerant &&
      one.weighings.some(({ atMs }) => atMs < weighing.atMs) &&
      (one.weighings.some(({ atMs }) => atMs > weighing.atMs) || (one.record.closedDay ?? 0) > weighing.day),
  );
  const near = open.filter(({ crew }) => crew === cylinder.crew);
  const from = near.length > 0 && random.chance(0.5) ? near : open;
  if (from.length === 0) return;
  const to = random.choice(from);
  weighing.writtenFor = to.cylinderId;
  cylinder.planted = { kind: 'misplaced', weighing, to: to.cylinderId };
  to.planted = { kind: 'host' };
}
