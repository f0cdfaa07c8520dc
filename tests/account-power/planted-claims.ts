import type { CylinderRemark } from '../../src/accounts/cylinder-account.ts';
import { type Claim, type ClaimGoal, claim } from '../truth/claim.ts';
import type { Planted } from './drawn-cylinder.ts';
import { type JudgedCylinder, saysRemark } from './judged-shop.ts';

type Of<Kind extends Planted['kind']> = JudgedCylinder & {
  readonly planted: Extract<Planted, { readonly kind: Kind }>;
};

/** What was planted, and whether it is found. */
export function plantedClaims(cylinders: readonly JudgedCylinder[]): Claim[] {
  return [
    ...theftClaims(of(cylinders, 'theft')),
    ...slipClaims(of(cylinders, 'slip')),
    ...misplacedClaims(of(cylinders, 'misplaced')),
  ];
}

function of<Kind extends Planted['kind']>(cylinders: readonly JudgedCylinder[], kind: Kind): Of<Kind>[] {
  return cylinders.flatMap((one) =>
    one.cylinder.planted?.kind === kind ? [{ ...one, planted: one.cylinder.planted } as Of<Kind>] : [],
  );
}

function share<One extends JudgedCylinder>(
  what: string,
  all: readonly One[],
  isSo: (one: One) => boolean,
  goal: ClaimGoal = {},
): Claim {
  const cases = all.map((one) => {
    const value = isSo(one);
    return { plan: one.plan, value, badness: value ? 0 : 1, says: saysAll(one) };
  });
  return claim(what, cases, goal);
}

function saysAll({ cylinder, line }: JudgedCylinder): string {
  return `${[...cylinder.marks].join(', ')}; ${line.remarks.map(saysRemark).join(', ')}`;
}

function theftClaims(thefts: readonly Of<'theft'>[]): Claim[] {
  const bins: readonly [number, number, ClaimGoal][] = [
    [0.1, 0.2, {}],
    [0.2, 0.5, { least: 0.85 }],
    [0.5, 1, { least: 0.95 }],
    [1, 3, { least: 0.97 }],
  ];
  return bins.flatMap(([from, to, goal]) => {
    const own = thefts.filter(({ planted: { kg } }) => kg >= from && kg < to);
    const kind = `${from} to ${to} kg stolen between two weighings`;
    const found = own.filter((one) => foundGap(one) !== undefined);
    return [
      share(`${kind}: found`, own, (one) => foundGap(one) !== undefined),
      share(
        `${kind}, weights before and after tell: found`,
        own.filter(isShown),
        (one) => foundGap(one) !== undefined,
        goal,
      ),
      claim(
        `${kind}: by so much the mass told is off, median`,
        found.map((one) => ({
          plan: one.plan,
          value: Math.abs((foundGap(one)?.kg ?? Number.NaN) - one.planted.kg),
          badness: 0,
          says: '',
        })),
        { write: (kg) => `${kg.toFixed(3)} kg`, most: 0.05 },
      ),
    ];
  });
}

/** What is missing over the moment of a theft. */
function foundGap({ line, planted: { atMs, day } }: Of<'theft'>) {
  for (const remark of line.remarks) {
    if (remark.id !== 'missing') continue;
    const { before, after, day: toDay } = remark.gap;
    const isBefore = before === null || before.atMs <= atMs;
    if (isBefore && (after === null ? toDay >= day : after.atMs >= atMs)) return remark.gap;
  }
  return undefined;
}

/** Whether weights tell what was in a cylinder before a theft and after it. */
function isShown({ cylinder: { weighings, record }, planted: { atMs } }: Of<'theft'>): boolean {
  const whole = weighings.filter(({ habit }) => habit !== 'zero');
  const before = record.tareKg !== null || whole.some((one) => one.atMs < atMs);
  return before && (whole.some((one) => one.atMs > atMs) || record.closingKg !== null);
}

const small = 0.05;

function slipClaims(slips: readonly Of<'slip'>[]): Claim[] {
  const sources = ['series', 'record', 'none'] as const;
  return sources.flatMap((source) => {
    const own = slips.filter((one) => sourceOf(one) === source);
    const kind =
      source === 'none' ? 'mistyped weights, no other figure' : `mistyped weights, another figure by the ${source}`;
    const large = own.filter(({ planted: { kg } }) => Math.abs(kg) >= small);
    const untold = own.filter((one) => !isMended(one));
    return [
      share(
        `${kind}: told, and rightly mended`,
        own,
        isMended,
        source === 'none' ? {} : { least: source === 'series' ? 0.8 : 0.7 },
      ),
      share(`${kind}: the cylinder is remarked upon, or the weighing kept apart`, own, isRemarked),
      share(`${kind}, by 50 g or more: the same`, large, isRemarked, { least: source === 'none' ? 0.85 : 0.95 }),
      share(`${kind}, not told: the slip is less than 50 g`, untold, ({ planted: { kg } }) => Math.abs(kg) < small),
      share(
        `${kind}, by 50 g or more: told, or called a slip of that weighing`,
        large,
        (one) => isMended(one) || isHinted(one),
      ),
    ];
  });
}

function recordedOf({ shop, planted: { weighing } }: Of<'slip'>) {
  return shop.records
    .find(({ cylinderId }) => cylinderId === weighing.writtenFor)
    ?.weighings.find(({ weighingId }) => weighingId === weighing.weighingId);
}

function sourceOf(one: Of<'slip'>): 'series' | 'record' | 'none' {
  const recorded = recordedOf(one);
  return recorded === undefined || recorded.otherKg === null ? 'none' : recorded.otherFrom;
}

/** Whether a remark says what was mistyped, and what it should be. */
export function isRightlyMended(remark: CylinderRemark, planted: Planted | null): boolean {
  if (remark.id !== 'mistyped' || planted?.kind !== 'slip') return false;
  const { weighing, which } = planted;
  const isThat = remark.weighing.weighingId === weighing.weighingId && remark.which === which;
  return isThat && Math.abs(remark.kg - weighing.shown[`${which}Kg`]) <= Math.max(0.03, 3 * weighing.stepKg);
}

function isMended({ line, planted }: Of<'slip'>): boolean {
  return line.remarks.some((remark) => isRightlyMended(remark, planted));
}

function isRemarked({ line, shop, planted: { weighing } }: Of<'slip'>): boolean {
  return line.remarks.length > 0 || shop.apart.has(weighing.weighingId) || shop.moved.has(weighing.weighingId);
}

function isHinted({ line, planted: { weighing, which } }: Of<'slip'>): boolean {
  return line.remarks.some((remark) => {
    if ((remark.id !== 'missing' && remark.id !== 'too-much') || remark.slip === null) return false;
    const { gap, slip } = remark;
    const said = slip.which === 'before' ? gap.before : gap.after;
    return said?.weighingId === weighing.weighingId && (slip.which === 'before') === (which === 'end');
  });
}

function misplacedClaims(misplaced: readonly Of<'misplaced'>[]): Claim[] {
  const told = ({ shop, planted: { weighing } }: Of<'misplaced'>) => shop.moved.get(weighing.weighingId);
  const kinds: readonly [string, (one: Of<'misplaced'>) => boolean, ClaimGoal, ClaimGoal][] = [
    [
      'whole or without the empty weight',
      ({ planted }) => planted.weighing.habit !== 'zero',
      { least: 0.6 },
      { least: 0.85 },
    ],
    ['on a scale that was set to 0', ({ planted }) => planted.weighing.habit === 'zero', {}, {}],
  ];
  return kinds.flatMap(([how, isOf, goal, eitherGoal]) => {
    const own = misplaced.filter(isOf);
    const kind = `weighings written for another cylinder, ${how}`;
    const isRight = (one: Of<'misplaced'>) => told(one) === one.cylinder.cylinderId;
    const isHinted = ({ line, planted: { weighing, to } }: Of<'misplaced'>) =>
      line.remarks.some(
        (one) => one.id === 'missing' && (one.counterpart === to || one.fits.includes(weighing.weighingId)),
      );
    return [
      share(`${kind}: told to the right one`, own, isRight, goal),
      share(
        `${kind}: told, or hinted at by the right counterpart`,
        own,
        (one) => isRight(one) || isHinted(one),
        eitherGoal,
      ),
      share(
        `${kind}: the cylinder it is of, or is written for, is remarked upon`,
        own,
        ({ line, shop, planted: { to } }) => line.remarks.length > 0 || (shop.lines.get(to)?.remarks.length ?? 0) > 0,
      ),
      share(`${kind}: told to a wrong one`, own, (one) => told(one) !== undefined && !isRight(one), { most: 0.01 }),
    ];
  });
}
