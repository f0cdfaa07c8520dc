import { describe, expect, test } from 'vitest';
import { dateOf } from '../../src/numerics/calendar-day.ts';
import { readInspections, readRepairs } from '../../src/store/repairs.ts';
import { readAppliances } from '../../src/store/appliance-additions.ts';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, tempFolder } from './temp-store.ts';

const csv = (head: string, ...rows: string[]) => [head, ...rows, ''].join('\n');
const jobs = (...rows: string[]) =>
  csv('job_id,system_id,started_at,work_type,charge_basis,weighed_in_kg,hose_residual_kg,recovered_kg', ...rows);
const weighings = (...rows: string[]) =>
  csv('weighing_id,job_id,system_id,at,direction,start_kg,end_kg,purpose,leak_id,hose_residual_kg', ...rows);
const callbacks = (...rows: string[]) => csv('callback_id,system_id,reported_at,refrigerant_added_kg', ...rows);
const appliances = csv('system_id,refrigerant,full_charge_kg,jurisdiction', 's,r410a,20,us-ca');

/** Works on a store of these files. */
const inStoreOf = <Result>(files: Record<string, string>, work: (store: Store) => Promise<Result>): Promise<Result> =>
  inStore(`${tempFolder()}/store`, async (store) => {
    await ingestFiles(store, files);
    return work(store);
  });

/** What was put into each system, one line each: day, source, in, out, purpose. */
const additionsOf = (files: Record<string, string>): Promise<Record<string, string[]>> =>
  inStoreOf({ 'appliances.csv': appliances, ...files }, async (store) => {
    const found: Record<string, string[]> = {};
    for await (const { systemId, additions } of readAppliances(store)) {
      found[systemId ?? '–'] = additions.map(({ day, source, chargedKg, recoveredKg, purpose, leakId }) => {
        const kg = (mass: number | null) => (mass === null ? '–' : mass.toFixed(2));
        return [day === null ? '–' : dateOf(day), source, kg(chargedKg), kg(recoveredKg), purpose, leakId ?? '–'].join(
          ' ',
        );
      });
    }
    return found;
  });

describe('what was put into a system', () => {
  test('by a job: what it charged, less what it recovered, by its day and its work', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs(
        'a,s,2026-03-01T09:00:00Z,install,empty,8,,',
        'b,s,2026-04-01T09:00:00Z,recharge,top-up,3,0.2,1',
        'c,s,2026-05-01T23:30:00-06:00,retrofit,empty,9,,4',
        'd,s,2026-06-01T09:00:00Z,service,,,,2',
        'e,s,2026-07-01T09:00:00Z,service,,,,',
      ),
    });
    expect(found.s).toEqual([
      '2026-03-01 job a 8.00 – install –',
      // 3 kg left the cylinder, 0.2 kg of it stayed in the hose.
      '2026-04-01 job b 2.80 1.00 leak –',
      '2026-05-01 job c 9.00 4.00 retrofit –',
      '2026-06-01 job d – 2.00 leak –',
    ]);
  });

  test('by the weighings of a job before the figure on its record, each mass once', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs('b,s,2026-04-01T09:00:00Z,recharge,top-up,3.1,,'),
      'weighings.csv': weighings(
        'w1,b,,2026-04-01T09:30:00Z,out,5,6.5,recovery,,',
        'w2,b,,2026-04-01T10:00:00Z,in,15,13,leak,L,0.1',
        'w3,b,,2026-04-01T10:30:00Z,in,13,12,leak,L,',
      ),
    });
    // 2 + 1 − 0.1 in; 1.5 out.
    expect(found).toEqual({ s: ['2026-04-01 job b 2.90 1.50 leak L'] });
  });

  test('by weighings without a job, each for itself', async () => {
    const found = await additionsOf({
      'weighings.csv': weighings(
        'w1,,s,2026-04-01T09:30:00Z,out,5,6.5,recovery,,',
        'w2,,s,2026-04-02T10:00:00Z,in,15,13,leak,L,0.1',
        'w3,,s,2026-04-03T10:00:00Z,in,13,12.5,,,',
        'w4,,s,2026-04-04T10:00:00Z,in,13,9,install,,',
        'w5,,s,2026-04-05T10:00:00Z,out,5,7,seasonal,,',
      ),
    });
    expect(found.s).toEqual([
      '2026-04-01 weighing w1 0.00 1.50 leak –',
      '2026-04-02 weighing w2 1.90 – leak L',
      '2026-04-03 weighing w3 0.50 – leak –',
      '2026-04-04 weighing w4 4.00 – install –',
      '2026-04-05 weighing w5 0.00 2.00 seasonal –',
    ]);
  });

  test('not by weighings without direction or weights', async () => {
    const found = await additionsOf({
      'weighings.csv': weighings(
        'w1,,s,2026-04-01T09:30:00Z,,15,13,leak,,',
        'w2,,s,2026-04-01T09:30:00Z,in,,13,leak,,',
        'w3,,s,2026-04-01T09:30:00Z,in,15,,leak,,',
      ),
    });
    expect(found).toEqual({ s: [] });
  });

  test('and what names no system, or one that is no appliance, stands by itself', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs('a,,2026-03-01T09:00:00Z,recharge,,2,,', 'b,other,2026-03-02T09:00:00Z,recharge,,3,,'),
    });
    expect(found).toEqual({
      s: [],
      other: ['2026-03-02 job b 3.00 – leak –'],
      '–': ['2026-03-01 job a 2.00 – leak –'],
    });
  });
});

describe('what a callback says that it added', () => {
  const charge = jobs('a,s,2026-03-10T09:00:00Z,recharge,,2,,');

  test('counts alone', async () => {
    const found = await additionsOf({
      'callbacks.csv': callbacks('k,s,2026-03-01T09:00:00Z,1.5', 'l,s,2026-03-02T09:00:00Z,0'),
    });
    expect(found.s).toEqual(['2026-03-01 callback k 1.50 – leak –']);
  });

  test.each([
    // The job that answers it comes up to 30 days later, or was begun up to 3 days before.
    ['2026-02-08T09:00:00Z', false],
    ['2026-02-07T09:00:00Z', true],
    ['2026-03-01T09:00:00Z', false],
    ['2026-03-13T09:00:00Z', false],
    ['2026-03-14T09:00:00Z', true],
  ])('near a charge of the same system is the same: reported on %s, counts: %s', async (on, counts) => {
    const found = await additionsOf({ 'jobs.csv': charge, 'callbacks.csv': callbacks(`k,s,${on},1.5`) });
    expect(found.s.filter((line) => line.includes('callback'))).toHaveLength(counts ? 1 : 0);
    expect(found.s.filter((line) => line.includes('job'))).toHaveLength(1);
  });

  test('near a charge of another system counts', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs('a,other,2026-03-10T09:00:00Z,recharge,,2,,'),
      'callbacks.csv': callbacks('k,s,2026-03-10T09:00:00Z,1.5'),
    });
    expect(found.s).toEqual(['2026-03-10 callback k 1.50 – leak –']);
  });

  test('near a weighing without a job is the same, too', async () => {
    const found = await additionsOf({
      'weighings.csv': weighings('w2,,s,2026-03-12T10:00:00Z,in,15,13,leak,,'),
      'callbacks.csv': callbacks('k,s,2026-03-10T09:00:00Z,1.5'),
    });
    expect(found.s).toEqual(['2026-03-12 weighing w2 2.00 – leak –']);
  });
});

describe('what is told of one mass in several ways', () => {
  test('a removal for a season keeps its reason, by a job and by weighings', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs('a,s,2026-03-01T09:00:00Z,service,,,,', 'b,s,2026-09-01T09:00:00Z,service,,,,'),
      'weighings.csv': weighings(
        'w1,a,s,2026-03-01T10:00:00Z,out,4,7,seasonal,,',
        'w2,b,s,2026-09-01T10:00:00Z,in,7,4,seasonal,,',
      ),
    });
    expect(found.s).toEqual(['2026-03-01 job a -3.00 – seasonal –', '2026-09-01 job b 3.00 – seasonal –']);
  });

  test('a weighing of a job that is not on record counts for the system that it names', async () => {
    const found = await additionsOf({ 'weighings.csv': weighings('w1,gone,s,2026-03-01T10:00:00Z,in,15,12,leak,,') });
    expect(found.s).toEqual(['2026-03-01 weighing w1 3.00 – leak –']);
  });

  test('what a job takes out before anything goes in is recovered, afterwards it trims the charge', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs('a,s,2026-03-01T09:00:00Z,repair,empty,,,', 'b,s,2026-04-01T09:00:00Z,repair,empty,,,'),
      'weighings.csv': weighings(
        'w1,a,s,2026-03-01T09:30:00Z,out,4,5,,,',
        'w2,a,s,2026-03-01T10:30:00Z,in,9,6,,,',
        'w3,b,s,2026-04-01T09:30:00Z,in,9,6,,,',
        'w4,b,s,2026-04-01T10:30:00Z,out,6,6.5,,,',
      ),
    });
    expect(found.s).toEqual(['2026-03-01 job a 3.00 1.00 leak –', '2026-04-01 job b 2.50 – leak –']);
  });

  test('a recovery put in says nothing of why the job was done', async () => {
    const found = await additionsOf({
      'jobs.csv': jobs('a,s,2026-03-01T09:00:00Z,install,empty,,,'),
      'weighings.csv': weighings('w1,a,s,2026-03-01T10:30:00Z,in,9,4,recovery,,'),
    });
    expect(found.s).toEqual(['2026-03-01 job a 5.00 – install –']);
  });
});

test('an appliance, its repairs and its inspections as on record', () =>
  inStoreOf(
    {
      'appliances.csv': csv(
        'system_id,site_id,refrigerant,full_charge_kg,full_charge_basis,sector,jurisdiction,installed_on,retired_on,hermetic,leak_detection',
        's,site,r404a,20,Nameplate,commercial-refrigeration,us-ca,1970-01-03,1970-01-11,true,false',
        't,,blue,0,guess,,,,,,',
      ),
      'repairs.csv': csv(
        'repair_id,system_id,leak_id,leak_found_on,repaired_on,initial_verified_on,followup_verified_on,normal_operation_on,shutdown,cost',
        'r2,s,L,1970-01-02,1970-01-05,1970-01-06,1970-01-08,1970-01-07,true,12.5',
        'r1,s,,,1970-01-04,,,,,',
      ),
      'inspections.csv': csv('system_id,inspected_on', 's,1970-01-09', 's,1970-01-02'),
    },
    async (store) => {
      const found = new Map<string | null, unknown>();
      for await (const { systemId, appliance } of readAppliances(store)) found.set(systemId, appliance);
      expect(found.get('s')).toEqual({
        systemId: 's',
        siteId: 'site',
        refrigerant: 'R-404A',
        writtenRefrigerant: 'r404a',
        fullChargeKg: 20,
        fullChargeBasis: 'maker',
        sector: 'commercial-refrigeration',
        jurisdiction: 'US',
        installedDay: 2,
        retiredDay: 10,
        isHermetic: true,
        hasDetection: false,
      });
      // A full charge of nothing, a basis and a refrigerant that nobody knows are none.
      expect(found.get('t')).toMatchObject({
        refrigerant: null,
        writtenRefrigerant: 'blue',
        fullChargeKg: null,
        fullChargeBasis: null,
        sector: null,
        jurisdiction: null,
        installedDay: null,
        isHermetic: null,
      });
      const none = { leakId: null, foundDay: null, initialDay: null, followUpDay: null, operationDay: null };
      expect(await readRepairs(store)).toEqual(
        new Map([
          [
            's',
            [
              { ...none, repairedDay: 3, isShutdown: null, cost: null },
              {
                leakId: 'L',
                foundDay: 1,
                repairedDay: 4,
                initialDay: 5,
                followUpDay: 7,
                operationDay: 6,
                isShutdown: true,
                cost: 12.5,
              },
            ],
          ],
        ]),
      );
      expect(await readInspections(store)).toEqual(new Map([['s', [1, 8]]]));
    },
  ));
