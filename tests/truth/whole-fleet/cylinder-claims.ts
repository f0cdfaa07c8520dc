import type { CylinderRemark } from '../../../src/accounts/cylinder-account.ts';
import type { CylinderTruth } from '../../../src/simulate/cylinder-truth.ts';
import { accountsReport } from '../../../src/steps/accounts-report.ts';
import { saysRemark } from '../../account-power/judged-shop.ts';
import { type Claim, claim } from '../claim.ts';
import type { JudgedFleet } from './judged-fleet.ts';
import { errorClaim } from './named-claims.ts';

interface Remarked {
  readonly cylinderId: string;
  readonly remark: CylinderRemark;
}

/** What is planted in cylinders and weighings, and what the accounts say of them. */
export async function cylinderClaims({ store, seed }: JudgedFleet): Promise<Claim[]> {
  const { remarked, apart } = await accountsReport(store, { codes: false, vintage: 'ar4', by: ['cylinder'] });
  const remarks = remarked.flatMap(({ cylinderId, remarks: own }) => own.map((remark) => ({ cylinderId, remark })));
  const truths = await store.rows<Required<CylinderTruth> & Record<string, unknown>>(
    'SELECT t.* FROM cylinder_truth t JOIN cylinders USING (cylinder_id) ORDER BY ALL',
  );
  const kept = new Map(apart.flatMap(({ entries, reason }) => entries.map(({ id }) => [id, reason] as const)));
  const plan = (id: string) => ({ seed, number: Number(id.replaceAll(/\D/g, '')), kind: id });
  const recall = (what: string, kind: CylinderTruth['kind'], isFound: (truth: CylinderTruth) => boolean): Claim =>
    claim(
      `${what}: recall`,
      truths
        .filter((truth) => truth.kind === kind)
        .map((truth) => ({
          plan: plan(truth.cylinder_id),
          value: isFound(truth),
          badness: isFound(truth) ? 0 : Math.abs(truth.kg) + 1e-9,
          says: `${truth.kg} kg, ${truth.at}, weighing ${truth.weighing_id ?? 'none'}${kept.has(truth.weighing_id) ? `, kept apart: ${kept.get(truth.weighing_id)}` : ''}; said: ${saidOf(remarks, truth.cylinder_id)}`,
          isUntold: kept.has(truth.weighing_id),
        })),
    );
  const precision = (ids: readonly CylinderRemark['id'][], isRight: (one: Remarked) => boolean): Claim =>
    claim(
      '… precision',
      remarks
        .filter(({ remark: { id } }) => ids.includes(id))
        .map((one) => ({
          plan: plan(one.cylinderId),
          value: isRight(one),
          badness: isRight(one) ? 0 : 1,
          says: `${saysRemark(one.remark)}; planted: ${plantedIn(truths, one.cylinderId)}`,
        })),
    );
  const lossOf = (one: Remarked) =>
    truths.find((truth) => truth.kind === 'lost' && truth.cylinder_id === one.cylinderId && isOver(one.remark, truth));
  // What a weighing took that is kept apart is missing, and the remark names that weighing.
  const isExplained = ({ remark }: Remarked) =>
    remark.id === 'missing' && remark.fits.some((id) => truths.some(({ weighing_id: of }) => of === id));
  const remarkOn = (truth: CylinderTruth) =>
    remarks.find(({ cylinderId, remark }) => cylinderId === truth.cylinder_id && isOver(remark, truth))?.remark;
  const onWeighing = (id: CylinderRemark['id'], weighingId: string | undefined) =>
    remarks.find(({ remark }) => remark.id === id && 'weighing' in remark && remark.weighing.weighingId === weighingId);
  const hasTruth = (kind: CylinderTruth['kind'], weighingId: string) =>
    truths.find((truth) => truth.kind === kind && truth.weighing_id === weighingId);
  return [
    recall(
      'loss from a cylinder, missing between the weighings around it',
      'lost',
      (truth) => remarkOn(truth) !== undefined,
    ),
    precision(['missing'], (one) => lossOf(one) !== undefined || isExplained(one)),
    errorClaim(
      '… mass that is missing, error',
      truths
        .filter(({ kind }) => kind === 'lost')
        .map((truth) => {
          const remark = remarkOn(truth);
          const kg = remark !== undefined && 'gap' in remark ? remark.gap.kg : undefined;
          return {
            plan: plan(truth.cylinder_id),
            error: kg === undefined ? undefined : kg - truth.kg,
            says: `true ${truth.kg} kg, told ${kg?.toFixed(3)} kg`,
          };
        }),
      (kg) => `${(1000 * kg).toFixed(0)} g`,
    ),
    recall(
      'mistyped weight, told and mended',
      'mistyped',
      ({ weighing_id: id }) => onWeighing('mistyped', id) !== undefined,
    ),
    precision(
      ['mistyped'],
      ({ remark }) => 'weighing' in remark && hasTruth('mistyped', remark.weighing.weighingId) !== undefined,
    ),
    recall(
      'weighing written for another cylinder, told to the right one',
      'swapped',
      ({ weighing_id: id, cylinder_id: of }) => onWeighing('misplaced', id)?.cylinderId === of,
    ),
    precision(['misplaced'], ({ remark, cylinderId }) => {
      const truth = 'weighing' in remark ? hasTruth('swapped', remark.weighing.weighingId) : undefined;
      return truth?.cylinder_id === cylinderId;
    }),
    recall('recovery cylinder that is overfilled', 'overfilled', ({ cylinder_id: id }) =>
      remarks.some(({ cylinderId, remark }) => cylinderId === id && remark.id === 'overfilled'),
    ),
    precision(['overfilled'], ({ cylinderId }) =>
      truths.some(({ kind, cylinder_id: id }) => kind === 'overfilled' && id === cylinderId),
    ),
    ...(['unnamed', 'early'] as const).map((kind) =>
      claim(
        `weighing that ${kind === 'unnamed' ? 'names no cylinder' : 'lies before its cylinder came'}: kept apart`,
        truths
          .filter((truth) => truth.kind === kind)
          .map(({ cylinder_id: id, weighing_id: weighingId }) => ({
            plan: plan(id),
            value: kept.has(weighingId),
            badness: kept.has(weighingId) ? 0 : 1,
            says: `weighing ${weighingId}`,
          })),
      ),
    ),
  ];
}

/** Whether a remark tells that something is missing over the moment of a loss. */
function isOver(remark: CylinderRemark, { at }: CylinderTruth): boolean {
  if (remark.id !== 'missing') return false;
  const { before, after, day } = remark.gap;
  const atMs = Date.parse(at);
  const isBefore = before === null || before.atMs === null || before.atMs <= atMs;
  return isBefore && (after === null || after.atMs === null ? day >= atMs / 86_400_000 - 1 : after.atMs >= atMs);
}

function saidOf(remarks: readonly Remarked[], id: string): string {
  const own = remarks.filter(({ cylinderId }) => cylinderId === id).map(({ remark }) => saysRemark(remark));
  return own.length === 0 ? 'nothing' : own.join(', ');
}

function plantedIn(truths: readonly CylinderTruth[], id: string): string {
  const own = truths
    .filter(({ cylinder_id: of, other_cylinder_id: other }) => of === id || other === id)
    .map(({ kind, kg }) => `${kind} ${kg} kg`);
  return own.length === 0 ? 'nothing' : own.join(', ');
}
