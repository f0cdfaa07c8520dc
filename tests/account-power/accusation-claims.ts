import { type Claim, claim } from '../truth/claim.ts';
import { type JudgedCylinder, saysRemark } from './judged-shop.ts';
import { isRightlyMended } from './planted-claims.ts';

/** Of all that is told: how much of it is wrong. */
export function accusationClaims(cylinders: readonly JudgedCylinder[]): Claim[] {
  const remarks = cylinders.flatMap((one) => one.line.remarks.map((remark) => ({ one, remark })));
  const kinds = [
    ['mistyped', ['mistyped'], 0.05],
    ['misplaced', ['misplaced'], 0.02],
    ['mistyped or misplaced', ['mistyped', 'misplaced'], 0.05],
  ] as const;
  return kinds.map(([kind, ids, most]) =>
    claim(
      `of all that is called ${kind}: wrong`,
      remarks
        .filter(({ remark: { id } }) => (ids as readonly string[]).includes(id))
        .map(({ one: { plan, cylinder, shop }, remark }) => {
          const isRight =
            remark.id === 'misplaced'
              ? shop.weighings.get(remark.weighing.weighingId)?.of === cylinder.cylinderId
              : isRightlyMended(remark, cylinder.planted);
          return {
            plan,
            value: !isRight,
            badness: isRight ? 0 : wrongBy(remark),
            says: `${saysRemark(remark)}; planted ${cylinder.planted?.kind ?? 'nothing'}; ${[...cylinder.marks].join(', ')}`,
          };
        }),
      { most },
    ),
  );
}

/** A weighing that is moved wrongly counts whole, a weight by what it is changed [kg]. */
function wrongBy(remark: JudgedCylinder['line']['remarks'][number]): number {
  if (remark.id === 'misplaced') return Math.abs(remark.weighing.startKg - remark.weighing.endKg) + 1e-9;
  if (remark.id !== 'mistyped') return 0;
  return Math.abs(remark.kg - (remark.which === 'start' ? remark.weighing.startKg : remark.weighing.endKg));
}
