import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());

const log = [
  'Job number;J-7',
  'Technician;Odd Marble',
  'Refrigerant;R410A',
  'Date;25.03.2026',
  '',
  'Time;Vacuum (µm);Suction (psi);Battery',
  '10:00:00;OL;0,0;88',
  '10:00:05;12345,5;0,1;88',
  '10:00:10;---;0,1;88',
  '10:00:15;1234,5;0,1;88',
  '10:00:20;901,5;0,1',
  '',
].join('\n');
writeFileSync(join(folder.path, 'their log.csv'), log);
const run = (...args: string[]) => dryhold(['map', ...args], { cwd: folder.path });

test('for people: what the file is, its first rows, what is unsure and where, what is left out, the map', () => {
  const { status, stdout, stderr } = run('their log.csv', '--time-zone', 'America/Denver');
  expect([status, stderr]).toEqual([0, '']);
  expect(stdout).toMatch(/^their log\.csv: text parted by semicolons\.\n/);
  expect(stdout).toMatch(/job_id +elapsed_s +vacuum_pa +suction_pa\n +J-7 +0 +over +101325\n/);
  expect(stdout).toContain('5 rows tried: 1 would be refused:\n    1 × 3 fields where the header has 4');
  expect(stdout).toMatch(/Unsure of 2 things; .*\n\s+1\. .*taken as psig.*\n?.*\[rows\.0\.columns\.suction_pa\.unit\]/);
  expect(stdout).toContain('[site.altitude_m.constant]');
  expect(stdout).toContain('- Battery: ');
  expect(stdout).toContain("Write it with: dryhold map 'their log.csv' --out map.json");
  const map = JSON.parse(stdout.slice(stdout.indexOf('\n{') + 1)) as object;
  expect(map).toMatchObject({ time_zone: 'America/Denver', file: { delimiter: ';', decimal: ',' } });
});

test('--json: the same for machines', () => {
  const { status, stdout } = run('their log.csv', '--json');
  expect(status).toBe(0);
  const { map, unsure, preview, leftOut } = JSON.parse(stdout) as Record<string, object[]>;
  expect(map).toMatchObject({ null_words: ['---'], over_words: ['OL'] });
  expect(unsure).toContainEqual({ where: 'time_zone', text: expect.any(String) });
  expect(preview[0]).toMatchObject({ table: 'readings', tried: 5, refused: 1 });
  expect(leftOut).toEqual([{ what: 'Battery', why: expect.any(String) }]);
});

test('--out writes a map that ingest takes, never over another file but with --force', () => {
  const first = run('their log.csv', '--out', 'map.json', '--time-zone', '-07:00');
  expect([first.status, first.stderr]).toEqual([0, '']);
  expect(first.stdout).toContain("dryhold ingest 'their log.csv' --map map.json");
  const written = readFileSync(join(folder.path, 'map.json'), 'utf8');
  expect(written).not.toContain(folder.path);
  const again = run('their log.csv', '--out', 'map.json');
  expect([again.status, again.stderr]).toEqual([2, expect.stringContaining('map.json is there already')]);
  expect(readFileSync(join(folder.path, 'map.json'), 'utf8')).toBe(written);
  expect(run('their log.csv', '--out', 'map.json', '--force', '--time-zone', '-07:00').status).toBe(0);
  const taken = dryhold(['ingest', 'their log.csv', '--map', 'map.json', '--json'], { cwd: folder.path });
  expect(taken.status).toBe(1);
  const { sources } = JSON.parse(taken.stdout) as { sources: object[] };
  expect(sources).toEqual([
    expect.objectContaining({ table_name: 'readings', rows_kept: 4, rows_rejected: 1 }),
    expect.objectContaining({ table_name: 'jobs', rows_kept: 1, rows_rejected: 0 }),
  ]);
});

test('what cannot be read is told, with what to do, and nothing is written', () => {
  writeFileSync(join(folder.path, 'letter.txt'), 'Dear all,\nthis is a letter.\n');
  writeFileSync(join(folder.path, 'empty.csv'), '');
  for (const [name, problem] of [
    ['letter.txt', 'no table was found'],
    ['empty.csv', 'the file is empty'],
    ['missing.csv', 'no such file'],
    ['.', 'it is a folder'],
  ]) {
    const { status, stdout, stderr } = run(name, '--out', 'none.json');
    expect([name, status, stdout]).toEqual([name, 3, '']);
    expect(stderr).toContain(problem);
  }
  expect(existsSync(join(folder.path, 'none.json'))).toBe(false);
});

test('a time zone that is none is wrong usage', () => {
  const { status, stderr } = run('their log.csv', '--time-zone', 'Nowhere/Else');
  expect([status, stderr]).toEqual([2, expect.stringContaining('no time zone "Nowhere/Else"')]);
});
