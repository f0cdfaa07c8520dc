import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });
const said = (...args: string[]) => {
  const { status, stdout, stderr } = run(...args);
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
};

afterAll(() => folder.remove());

describe('a record with holes', () => {
  const write = (table: string, ...lines: string[]) =>
    writeFileSync(join(folder.path, 'holes', `${table}.csv`), `${lines.join('\n')}\n`);

  test('is kept apart with the reason, listed, and never guessed', () => {
    mkdirSync(join(folder.path, 'holes'));
    write(
      'cylinders',
      'cylinder_id,refrigerant,acquired_on,net_kg,closed_on,closing_kg,tare_kg',
      'good,R-410A,2026-01-01,10,,,3',
      'strange,R-999Z,2026-01-01,10,,,3',
      'unfilled,R-32,2026-01-01,,,,3',
      '=cmd(),R-32,2026-01-01,5,,,3',
    );
    write(
      'weighings',
      'weighing_id,cylinder_id,refrigerant,direction,at,start_kg,end_kg,system_id,purpose',
      'w1,good,R-410A,in,2026-02-01T10:00:00Z,13,12,s1,leak',
      'w2,,R-410A,in,2026-02-02T10:00:00Z,12,11,s1,leak',
      'w3,good,R-410A,in,2025-12-24T10:00:00Z,12,11.5,s1,leak',
      'w4,gone,R-410A,in,2026-02-03T10:00:00Z,9,8,s2,leak',
      'w5,good,R-410A,in,2026-02-04T10:00:00Z,12,,s2,leak',
      'w6,strange,R-999Z,in,2026-02-05T10:00:00Z,13,12,s3,leak',
    );
    write(
      'appliances',
      'system_id,refrigerant,full_charge_kg,sector,jurisdiction',
      's1,R-410A,,comfort,US',
      's2,R-410A,30,comfort,',
      's3,R-999Z,30,comfort,US',
    );
    expect(run('ingest', 'holes', '--store', 'holes-store', '--quiet').status).toBe(0);
    const accounts = said('accounts', '--store', 'holes-store', '--units', 'si');
    for (const line of [
      '1 weighing, 1.000 kg: no cylinder is named (w2)',
      '1 weighing, 0.500 kg: it is dated before the cylinder was bought (w3)',
      '1 weighing, 1.000 kg: the cylinder that is named is not on record (w4)',
      '1 weighing: the weight before or after is missing (w5)',
      '1 cylinder, 1.000 kg: the refrigerant that is named is none that is known here (strange)',
      '1 cylinder: what was in it when it came is not on record (unfilled)',
      'Jobs are not judged yet',
    ])
      expect(accounts.replaceAll(/\s+/g, ' ')).toContain(line);
    const leaks = said('leaks', '--store', 'holes-store', '--on', '2026-03-01').replaceAll(/\s+/g, ' ');
    for (const line of [
      '1 appliance: the full charge is not on record (s1)',
      '1 appliance: the refrigerant that is named is none that is known here (s3)',
      'whose rules apply is not on record',
    ])
      expect(leaks).toContain(line);
    // A name that a spreadsheet would run is a name.
    expect(said('accounts', '--by', 'cylinder', '--csv', '--store', 'holes-store')).toContain("\n'=cmd(),");
  });

  test.each([
    [['accounts', '--by', 'colour'], 2],
    [['accounts', '--from', '2026-13-01'], 2],
    [['accounts', '--from', '2026-02-01', '--to', '2026-01-01'], 2],
    [['accounts', '--csv', '--json'], 2],
    [['accounts', 'no-such-cylinder', '--store', 'holes-store'], 2],
    [['accounts', 'no-such-cylinder', '--by', 'crew'], 2],
    [['accounts', '--gwp', 'ar7'], 2],
    [['leaks', 'no-such-appliance', '--store', 'holes-store'], 2],
    [['leaks', '--method', 'guess'], 2],
    [['leaks', '--csv', '--json'], 2],
    [['due', '--within', '0'], 2],
    [['due', '--on', 'yesterday'], 2],
    [['due', '--store', 'no-such-store'], 3],
  ] as const)('%j is told in one line', (args, status) => {
    const { status: got, stdout, stderr } = run(...args);
    expect([got, stdout]).toEqual([status, '']);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });

  test('nothing at all is said plainly', () => {
    mkdirSync(join(folder.path, 'nothing'));
    writeFileSync(join(folder.path, 'nothing', 'people.csv'), 'technician_id\nt1\n');
    expect(run('ingest', 'nothing', '--store', 'nothing-store', '--quiet').status).toBe(0);
    expect(said('accounts', '--store', 'nothing-store')).toContain('No cylinder and no weighing is on record');
    expect(said('leaks', '--store', 'nothing-store')).toContain('No appliance is on record');
    expect(said('due', '--store', 'nothing-store', '--on', '2026-01-01')).toContain('Nothing is overdue');
  });
});
