import type { CylinderRemark } from '../../src/accounts/cylinder-account.ts';
import type { CylinderWithWeighings } from '../../src/accounts/cylinder-record.ts';
import type { BookedLedger, CylinderLine, Period } from '../../src/accounts/booked-ledger.ts';
import { Ledger } from '../../src/accounts/ledger.ts';
import { Random } from '../../src/numerics/random.ts';
import type { TrialName } from '../truth/claim.ts';
import type { DrawnCylinder, DrawnWeighing } from './drawn-cylinder.ts';
import { drawnShop, firstDay, lastDay } from './drawn-shop.ts';
import { plantSlips } from './plant-slips.ts';
import { shopRecords } from './shop-records.ts';

export const wholePeriod: Period = { fromDay: firstDay, toDay: lastDay };

/** What a cylinder is, and what the ledger says of it. */
export interface JudgedCylinder {
  readonly plan: TrialName;
  readonly cylinder: DrawnCylinder;
  readonly line: CylinderLine;
  readonly shop: JudgedShop;
}

/** A shop with what the ledger makes of its records. */
export interface JudgedShop {
  readonly number: number;
  readonly records: readonly CylinderWithWeighings[];
  readonly booked: BookedLedger;
  readonly weighings: ReadonlyMap<string, DrawnWeighing>;
  readonly truths: ReadonlyMap<string, DrawnCylinder>;
  readonly lines: ReadonlyMap<string, CylinderLine>;
  /** Weighings that the ledger took out of the cylinder they were written for, with the one it moved them to. */
  readonly moved: ReadonlyMap<string, string>;
  readonly apart: ReadonlySet<string>;
}

/** Shops with so many cylinders at least, each of them judged by the ledger. */
export function judgedShops(seed: number, cylinders: number): JudgedShop[] {
  const shops: JudgedShop[] = [];
  for (let drawn = 0, number = 0; drawn < cylinders; number += 1) {
    const shop = drawnShop(seed, number);
    plantSlips(new Random(seed, 1_000_000 + number), shop.cylinders);
    const records = shopRecords(new Random(seed, 2_000_000 + number), shop);
    const booked = bookedIn(records, wholePeriod);
    drawn += shop.cylinders.length;
    shops.push({
      number,
      records,
      booked,
      weighings: new Map(shop.cylinders.flatMap((one) => one.weighings).map((one) => [one.weighingId, one])),
      truths: new Map(shop.cylinders.map((one) => [one.cylinderId, one])),
      lines: new Map(booked.cylinders.map((line) => [line.cylinder.cylinderId, line])),
      moved: new Map(
        booked.cylinders.flatMap(({ cylinder: { cylinderId }, remarks }) =>
          remarks.flatMap((one): [string, string][] =>
            one.id === 'misplaced' ? [[one.weighing.weighingId, cylinderId]] : [],
          ),
        ),
      ),
      apart: new Set(booked.apart.flatMap(({ what, id }) => (what === 'weighing' ? [id] : []))),
    });
  }
  return shops;
}

/** What the ledger books of records. */
export function bookedIn(records: readonly CylinderWithWeighings[], period: Period): BookedLedger {
  const ledger = new Ledger(period);
  for (const each of records) ledger.add(each);
  return ledger.close();
}

/** Every cylinder of every shop. */
export function judgedCylinders(seed: number, shops: readonly JudgedShop[]): JudgedCylinder[] {
  return shops.flatMap((shop) =>
    [...shop.truths.values()].flatMap((cylinder): JudgedCylinder[] => {
      const line = shop.lines.get(cylinder.cylinderId);
      const plan = { seed, number: shop.number, kind: cylinder.cylinderId };
      return line === undefined ? [] : [{ plan, cylinder, line, shop }];
    }),
  );
}

/** A remark in a few words. */
export function saysRemark(remark: CylinderRemark): string {
  if (remark.id === 'missing' || remark.id === 'too-much') return `${remark.id} ${remark.gap.kg.toFixed(3)}`;
  if (remark.id === 'mistyped') return `mistyped ${remark.which} by ${remark.by}, to be ${remark.kg.toFixed(3)}`;
  return remark.id === 'misplaced' ? `misplaced ${remark.weighing.weighingId}` : remark.id;
}
