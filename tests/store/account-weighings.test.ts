import { describe, expect, test } from 'vitest';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { applianceAccount } from '../../src/accounts/appliance-account.ts';
import { judge } from '../../src/steps/judge.ts';
import { readAppliances } from '../../src/store/appliance-additions.ts';
import { readCylinders } from '../../src/store/cylinder-weighings.ts';
import type { Store } from '../../src/store/store.ts';
import { aLedger } from '../accounts/cylinder-drafts.ts';
import { ingestFiles, inStore, tempFolder } from './temp-store.ts';

const csv = (head: string, rows: readonly string[]) => [head, ...rows, ''].join('\n');
const cylinderHead = 'cylinder_id,refrigerant,acquired_on,net_kg,tare_kg,closed_on,closing_kg';
const jobHead =
  'job_id,system_id,started_at,technician_id,crew_id,refrigerant,work_type,charge_basis,weighed_in_kg,recovered_kg,scale_step_kg';
const weighingHead = 'weighing_id,job_id,cylinder_id,system_id,at,direction,start_kg,end_kg,purpose';

/**
 * One cylinder of 10 kg, 5 kg empty: job a charges 3 kg by a scale whose series is on record, too; job b charges 2 kg and recovers 1 kg
 * into another; 0.5 kg go without a job.
 */
const files = {
  'cylinders.csv': csv(cylinderHead, ['c1,R-410A,2026-01-05,10,5,2026-03-31,4.5', 'rec,R-410A,2026-01-05,0,6,,']),
  'appliances.csv': csv('system_id,refrigerant,full_charge_kg', ['s,R-410A,20', 't,R-410A,20']),
  'jobs.csv': csv(jobHead, [
    'a,s,2026-01-10T09:00:00Z,T,crew,R-410A,recharge,top-up,3,,0.01',
    'b,t,2026-01-20T09:00:00Z,T,crew,R-410A,recharge,top-up,2,1,0.01',
  ]),
  'weighings.csv': csv(weighingHead, [
    'w4,,c1,s,2026-02-10T10:00:00Z,in,10,9.5,leak',
    'w3,b,c1,,2026-01-20T10:00:00Z,in,12,10,leak',
    'w2,b,rec,,2026-01-20T09:30:00Z,out,6,7,recovery',
    'w1,a,c1,,2026-01-10T10:00:00Z,in,15,12,leak',
  ]),
  // A reading a second: 15 kg, and from 60 s on 10 g/s for 300 s, to 12 kg.
  'readings.csv': csv(
    'job_id,elapsed_s,scale_kg',
    Array.from({ length: 420 }, (_, at) => `a,${at},${(15 - 0.01 * Math.min(300, Math.max(0, at - 60))).toFixed(2)}`),
  ),
};

const inStoreOf = <Result>(
  own: Record<string, string>,
  work: (store: Store) => Promise<Result>,
  isJudged = true,
): Promise<Result> =>
  inStore(`${tempFolder()}/store`, async (store) => {
    await ingestFiles(store, own);
    if (isJudged) await judge(store);
    return work(store);
  });

async function ledgerOf(store: Store) {
  const ledger = aLedger();
  for await (const one of readCylinders(store)) ledger.add(one);
  return ledger.close();
}

/** What was added to each system in all, net of what was recovered, in whole grams. */
async function addedGrams(store: Store): Promise<Record<string, number>> {
  const found: Record<string, number> = {};
  for await (const { systemId, appliance, additions } of readAppliances(store)) {
    if (appliance === null || systemId === null) continue;
    const counted = applianceAccount(appliance, additions, [], dayOf('2026-12-31')).additions;
    found[systemId] = Math.round(1000 * counted.reduce((sum, { kg }) => sum + kg, 0));
  }
  return found;
}

const gramsOf = (kg: number) => Math.round(1000 * kg);

describe('a small shop', () => {
  test('counts a job with weighings and a series of its scale once, in cylinders and in systems', () =>
    inStoreOf(files, async (store) => {
      const [fact] = await store.rows<{ from: string; kg: number }>(
        `SELECT charged_from AS "from", drawn_kg AS kg FROM facts WHERE job_id = 'a'`,
      );
      expect([fact.from, gramsOf(fact.kg)]).toEqual(['scale', 3000]);
      const { total, apart, weighings } = await ledgerOf(store);
      expect([gramsOf(total.chargedKg), gramsOf(total.recoveredKg)]).toEqual([5500, 1000]);
      expect([gramsOf(total.boughtKg), gramsOf(total.returnedKg), gramsOf(total.unexplainedKg)]).toEqual([
        10_000, 4500, 0,
      ]);
      expect([gramsOf(total.onHandKg), apart, weighings]).toEqual([1000, [], 4]);
      // 3 of the job and 0.5 without one; 2 in less 1 out.
      expect(await addedGrams(store)).toEqual({ s: 3500, t: 1000 });
    }));

  test('comes to the same before it is judged', () =>
    inStoreOf(
      files,
      async (store) => {
        const { total } = await ledgerOf(store);
        expect([gramsOf(total.chargedKg), gramsOf(total.recoveredKg), gramsOf(total.onHandKg)]).toEqual([
          5500, 1000, 1000,
        ]);
        expect(await addedGrams(store)).toEqual({ s: 3500, t: 1000 });
      },
      false,
    ));

  test('comes to the same in whatever order the rows stand', async () => {
    const turned = Object.fromEntries(
      Object.entries(files).map(([name, text]) => {
        const [head, ...rows] = text.trim().split('\n');
        return [name, csv(head, rows.toReversed())];
      }),
    );
    const told = async (own: Record<string, string>) =>
      inStoreOf(own, async (store) => {
        const { total, cylinders, apart } = await ledgerOf(store);
        const masses = [total.boughtKg, total.chargedKg, total.recoveredKg, total.unexplainedKg, total.onHandKg];
        return [
          masses.map(gramsOf),
          cylinders.map(({ cylinder, remarks }) => [cylinder.cylinderId, remarks]),
          apart,
          await addedGrams(store),
        ];
      });
    expect(await told(turned)).toEqual(await told(files));
  });

  test('mends a mistyped weight by the series of the scale', () => {
    // 15 → 12 kg, written 15 → 21; the series fell by 3 kg, and the next weighing begins with 12 kg.
    const mistyped = files['weighings.csv'].replace('in,15,12,', 'in,15,21,');
    return inStoreOf({ ...files, 'weighings.csv': mistyped }, async (store) => {
      const { total, cylinders } = await ledgerOf(store);
      expect([gramsOf(total.chargedKg), gramsOf(total.unexplainedKg)]).toEqual([5500, 0]);
      expect(cylinders[0].remarks).toMatchObject([{ id: 'mistyped', which: 'end', by: 'series' }]);
    });
  });
});

describe('weighings that cannot be booked', () => {
  const weighings = (...rows: string[]) => ({ ...files, 'weighings.csv': csv(weighingHead, rows) });
  /** What is written, and why it cannot be booked; null where it can. */
  const rows: readonly (readonly [string, string | null])[] = [
    [',c1,s,2026-02-10T10:00:00Z,,15,14,leak', 'no-direction'],
    [',c1,s,2026-02-10T10:00:00Z,in,,14,leak', 'no-weights'],
    [',c1,s,2026-02-10T10:00:00Z,in,15,,leak', 'no-weights'],
    [',c1,s,,in,15,14,leak', 'no-day'],
    [',c9,s,2026-02-10T10:00:00Z,in,15,14,leak', 'unknown-cylinder'],
    [',,s,2026-02-10T10:00:00Z,in,15,14,leak', 'no-cylinder'],
    [',c1,s,2026-01-04T10:00:00Z,in,15,14,leak', 'before-bought'],
    // By the clock of the place: the very day it was bought, and closed.
    [',c1,s,2026-01-05T00:10:00-08:00,in,15,14,leak', null],
    [',c1,s,2026-03-31T23:50:00-08:00,in,15,14,leak', null],
    [',c1,s,2026-04-01T00:10:00-08:00,in,15,14,leak', 'after-closing'],
    // The day of the job is its own where none is written.
    ['a,c1,s,,in,15,14,leak', null],
  ];

  test('are set apart, each with its reason, and the others are booked', () =>
    inStoreOf(
      weighings(...rows.map(([row], at) => `w${at},${row}`)),
      async (store) => {
        const { apart, cylinders } = await ledgerOf(store);
        const reasons = new Map(apart.map(({ id, reason }) => [id, reason]));
        expect(rows.map((_, at) => reasons.get(`w${at}`) ?? null)).toEqual(rows.map(([, reason]) => reason));
        expect(cylinders.find(({ cylinder }) => cylinder.cylinderId === 'c1')?.weighings).toBe(3);
      },
      false,
    ));

  test('are all there, booked or kept apart', () =>
    inStoreOf(
      weighings(
        'v1,a,c1,,2026-01-10T10:00:00Z,in,15,12,leak',
        'v2,gone,c1,,2026-01-12T10:00:00Z,in,12,11,leak',
        'v3,,,,,,,,',
        'v4,b,c9,,2026-01-12T10:00:00Z,in,12,11,leak',
      ),
      async (store) => {
        const { weighings: count, total, apart } = await ledgerOf(store);
        expect([count, apart.map(({ id }) => id).sort(), gramsOf(total.chargedKg)]).toEqual([4, ['v3', 'v4'], 4000]);
      },
      false,
    ));
});
