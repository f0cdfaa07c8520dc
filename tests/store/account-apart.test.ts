import { expect, test } from 'vitest';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { eachAppliance } from '../../src/steps/open-appliances.ts';
import { ingestFiles, inStore, tempFolder } from './temp-store.ts';

const csv = (head: string, ...rows: string[]) => [head, ...rows, ''].join('\n');

/** One job each for what can be wrong with an appliance or an addition. */
const files = {
  'appliances.csv': csv(
    'system_id,refrigerant,full_charge_kg,retired_on',
    'good,R-410A,20,',
    'no-charge,R-410A,,',
    'no-refrigerant,,20,',
    'unknown,blue,20,',
    'retired,R-410A,20,2026-03-01',
  ),
  'jobs.csv': csv(
    'job_id,system_id,started_at,work_type,charge_basis,weighed_in_kg',
    'a,good,2026-03-02T09:00:00Z,recharge,top-up,1',
    'b,good,2026-03-02T09:00:00Z,repair,empty,2',
    'c,,2026-03-02T09:00:00Z,recharge,top-up,3',
    'd,elsewhere,2026-03-02T09:00:00Z,recharge,top-up,4',
    // What fills a system for the first time tells of no leak.
    'e,elsewhere,2026-03-01T09:00:00Z,install,empty,5',
    'f,retired,2026-03-02T09:00:00Z,recharge,top-up,6',
    'g,retired,2026-03-01T09:00:00Z,recharge,top-up,7',
    'h,no-charge,2026-03-02T09:00:00Z,recharge,top-up,8',
  ),
  'weighings.csv': csv('weighing_id,system_id,at,direction,start_kg,end_kg', 'w,good,,in,15,14.5'),
};

test('what cannot be accounted of appliances is named with its reason, and nothing else', () =>
  inStore(`${tempFolder()}/store`, async (store) => {
    await ingestFiles(store, files);
    const counted: Record<string, number[]> = {};
    const apart = await eachAppliance(store, { today: dayOf('2026-12-31'), jurisdiction: 'US' }, ({ account }) => {
      expect(account.appliance.jurisdiction).toBe('US');
      counted[account.appliance.systemId] = account.additions.map(({ kg }) => kg);
    });
    expect(apart.map(({ reason, what, id, kg }) => `${reason}: ${what} ${id}, ${kg ?? '–'} kg`).sort()).toEqual([
      'after-retirement: job f, 6 kg',
      'no-day: weighing w, 0.5 kg',
      'no-full-charge: appliance no-charge, – kg',
      'no-refrigerant: appliance no-refrigerant, – kg',
      'no-system: job c, 3 kg',
      'recovered-not-known: job b, 2 kg',
      'unknown-appliance: job d, 4 kg',
      'unknown-refrigerant: appliance unknown, – kg',
    ]);
    expect(counted).toEqual({ good: [1], 'no-charge': [8], 'no-refrigerant': [], retired: [7], unknown: [] });
  }));
