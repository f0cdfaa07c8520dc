import { hosePullKg } from '../facts/charge/weigh-in.ts';
import type { CylinderRecord, CylinderWeighing } from './cylinder-record.ts';
import { type CylinderGap, type CylinderWalk, type WalkedWeighing, walkCylinder } from './cylinder-walk.ts';
import type { MendedWeight } from './mended-weights.ts';
import { type TypingSlip, typingSlip } from './typing-slip.ts';

/** Why a weighing or a cylinder cannot be accounted. */
export type ApartReason =
  | 'no-cylinder'
  | 'unknown-cylinder'
  | 'not-this-cylinder'
  | 'no-weights'
  | 'no-direction'
  | 'wrong-way'
  | 'no-day'
  | 'before-bought'
  | 'after-closing'
  | 'no-refrigerant'
  | 'unknown-refrigerant'
  | 'no-net'
  | 'no-day-bought'
  | 'closing-not-weighed'
  | 'no-weighing'
  | 'no-system'
  | 'no-full-charge'
  | 'recovered-not-known'
  | 'unknown-appliance'
  | 'after-retirement';

/** Something about a cylinder that somebody should look at. */
export type CylinderRemark =
  | {
      readonly id: 'missing' | 'too-much';
      readonly gap: CylinderGap;
      readonly slip: { readonly which: 'before' | 'after'; readonly how: TypingSlip } | null;
      /** Weighings that are kept apart and would explain it. */
      readonly fits: readonly string[];
      /** A cylinder in which as much is too much, or missing. */
      readonly counterpart: string | null;
    }
  | {
      readonly id: 'mistyped';
      readonly weighing: CylinderWeighing;
      readonly which: 'start' | 'end';
      readonly kg: number;
      readonly by: 'series' | 'record';
    }
  | { readonly id: 'misplaced'; readonly weighing: CylinderWeighing; readonly writtenFor: string }
  | { readonly id: 'negative'; readonly kg: number; readonly day: number }
  | { readonly id: 'overfilled'; readonly kg: number; readonly capacityKg: number; readonly day: number }
  | { readonly id: 'other-refrigerant'; readonly weighing: CylinderWeighing; readonly refrigerant: string };

/** A cylinder with what came of it. */
export interface CylinderAccount {
  readonly walk: CylinderWalk;
  readonly remarks: readonly CylinderRemark[];
  /** Weighings that are kept apart, each with the reason. */
  readonly apart: readonly { readonly weighing: CylinderWeighing; readonly reason: ApartReason }[];
  /** Why the cylinder has no account of its own; null where it has one. */
  readonly noAccount: ApartReason | null;
}

/**
 * Takes a cylinder's account: what left it, what is missing, what to look at. What does not fit its record is kept apart.
 *
 * @param weighings of this cylinder, with both weights, in the order of time
 */
export function cylinderAccount(cylinder: CylinderRecord, weighings: readonly CylinderWeighing[]): CylinderAccount {
  const { acquiredDay, closedDay } = cylinder;
  const apart: { weighing: CylinderWeighing; reason: ApartReason }[] = [];
  const counted = weighings.filter((weighing) => {
    const reason: ApartReason | undefined =
      acquiredDay !== null && weighing.day < acquiredDay
        ? 'before-bought'
        : closedDay !== null && weighing.day > closedDay
          ? 'after-closing'
          : undefined;
    if (reason !== undefined) apart.push({ weighing, reason });
    return reason === undefined;
  });
  let walk = walkCylinder(cylinder, counted);
  // What goes the other way than its record says is only counted where another figure tells what was mistyped.
  const wrongWay = new Set(walk.weighings.filter(goesWrongWay).map(({ weighing }) => weighing));
  if (wrongWay.size > 0) {
    for (const weighing of wrongWay) apart.push({ weighing, reason: 'wrong-way' });
    walk = walkCylinder(
      cylinder,
      counted.filter((weighing) => !wrongWay.has(weighing)),
    );
  }
  return { walk, remarks: remarksOn(walk), apart, noAccount: noAccountOf(cylinder) };
}

function goesWrongWay({ weighing: { direction, stepKg }, outKg }: WalkedWeighing): boolean {
  return (direction === 'in' ? outKg : -outKg) < -2 * stepKg;
}

function noAccountOf({
  refrigerant,
  writtenRefrigerant,
  netKg,
  kind,
  acquiredDay,
}: CylinderRecord): ApartReason | null {
  if (refrigerant === null) return writtenRefrigerant === null ? 'no-refrigerant' : 'unknown-refrigerant';
  // A recovery cylinder comes empty where nothing else is said.
  if (netKg === null && kind === 'supply') return 'no-net';
  return acquiredDay === null ? 'no-day-bought' : null;
}

function remarksOn(walk: CylinderWalk): CylinderRemark[] {
  const { cylinder, weighings, gaps, contentKg } = walk;
  const beyond = gaps
    .filter(({ isBeyond }) => isBeyond)
    .map(
      (gap): CylinderRemark => ({
        id: gap.kg > 0 ? 'missing' : 'too-much',
        gap,
        slip: slipOf(gap),
        fits: [],
        counterpart: null,
      }),
    );
  const mended = weighings.flatMap(({ weighing, mended: one }): CylinderRemark[] =>
    one === null || !isMistyped(weighing, one) ? [] : [{ id: 'mistyped', weighing, ...one }],
  );
  const others = weighings.flatMap(({ weighing }): CylinderRemark[] =>
    weighing.refrigerant === null || cylinder.refrigerant === null || weighing.refrigerant === cylinder.refrigerant
      ? []
      : [{ id: 'other-refrigerant', weighing, refrigerant: weighing.refrigerant }],
  );
  return [...beyond, ...mended, ...others, ...negative(walk, contentKg), ...overfilled(walk, contentKg)];
}

/** A weight that was mended by no more than this may have been a display that a hose pulled at, and no slip of the hand [kg]. */
const leastSlipKg = hosePullKg + 0.03;

function isMistyped(weighing: CylinderWeighing, { which, kg }: MendedWeight): boolean {
  return Math.abs((which === 'start' ? weighing.startKg : weighing.endKg) - kg) > leastSlipKg;
}

/** A cylinder that holds less than nothing by more than its weights explain [kg]. */
const negativeKg = 0.1;

function negative({ weighings }: CylinderWalk, contentKg: readonly number[]): CylinderRemark[] {
  const kg = Math.min(0, ...contentKg);
  return kg < -negativeKg ? [{ id: 'negative', kg, day: weighings[contentKg.indexOf(kg)].weighing.day }] : [];
}

function overfilled(
  { cylinder: { capacityKg }, weighings }: CylinderWalk,
  contentKg: readonly number[],
): CylinderRemark[] {
  if (capacityKg === null) return [];
  const kg = Math.max(...contentKg);
  const at = contentKg.indexOf(kg);
  const isOver = weighings.length > 0 && kg > capacityKg + weighings[at].weighing.stepKg && weighings[at].outKg < 0;
  return isOver ? [{ id: 'overfilled', kg, capacityKg, day: weighings[at].weighing.day }] : [];
}

/** A slip of the hand that would explain what is missing or too much; those that another figure of the mass confirms are none. */
function slipOf({
  before,
  after,
  expectedKg,
  shownKg,
  sdKg,
}: CylinderGap): { which: 'before' | 'after'; how: TypingSlip } | null {
  if (after === null) return null;
  const withinKg = 2 * sdKg;
  if (before !== null && before.otherKg === null) {
    const how = typingSlip(before.endKg, shownKg, withinKg);
    if (how !== null) return { which: 'before', how };
  }
  if (after.otherKg === null) {
    const how = typingSlip(after.startKg, expectedKg, withinKg);
    if (how !== null) return { which: 'after', how };
  }
  return null;
}
