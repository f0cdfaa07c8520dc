import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const blocks = [...readme.matchAll(/```sh\n(.*?)```/gs)].map(([, block = '']) => block);
const folder = temporaryFolder();
afterAll(() => folder.remove());

test('the first two blocks are what a fresh machine needs', () => {
  expect(blocks.slice(0, 2)).toEqual(['npm ci && npm run demo\n', 'npm ci && npm test\n']);
});

test('every other block runs as it stands', { timeout: 120_000 }, () => {
  for (const name of ['bin', 'sample-data']) symlinkSync(join(root, name), join(folder.path, name));
  const others = blocks.filter((block) => !block.includes('npm ci'));
  expect(others).toHaveLength(7);
  for (const block of others) {
    const { status, stderr } = spawnSync('bash', ['-ec', block], { cwd: folder.path, encoding: 'utf8' });
    expect([status, stderr.replace(/1 row refused; .*\n/g, '')]).toEqual([0, '']);
  }
  expect(existsSync(join(folder.path, 'dryhold-report', 'index.html'))).toBe(true);
});

test('the example of the physics runs as it stands', () => {
  const [, code = ''] = /```js\n(.*?)```/s.exec(readme) ?? [];
  const result = spawnSync(process.execPath, ['--conditions=dryhold-source', '--input-type=module', '-e', code], {
    cwd: root,
    encoding: 'utf8',
  });
  expect([result.status, result.stderr]).toEqual([0, '']);
  const [bubblePaAndDensity, superheatK, endPa] = result.stdout.trim().split('\n');
  // R-410A at 100 °F: 318.54 psig and 61.7 lb/ft³ (CoolProp 8.0).
  const [bubblePa, density] = bubblePaAndDensity.split(' ').map(Number);
  expect(bubblePa / 6894.757 - 14.696).toBeCloseTo(318.54, 1);
  expect(density * (0.3048 ** 3 / 0.45359237)).toBeCloseTo(61.7, 1);
  // 900 kPa lies between the dew pressures at 0 and 5 °C, so the vapour at 15 °C is superheated by 10 to 15 K.
  expect(Number(superheatK)).toBeGreaterThan(10);
  expect(Number(superheatK)).toBeLessThan(15);
  expect(Number(endPa)).toBeGreaterThan((4.2e6 * 311) / 294);
});

test('every command of the table exists, and none is left out', () => {
  const [, section = ''] = /^## Commands\n(.*?)^## /ms.exec(readme) ?? [];
  const told = [...section.matchAll(/^\| `([a-z]+)[^`]*` \|/gm)].map(([, name = '']) => name);
  const listed = [...dryhold(['--help']).stdout.matchAll(/^ {2}([a-z]+) \[/gm)].map(([, name = '']) => name);
  expect(told).toEqual(listed.filter((name) => name !== 'help'));
});

test('every file that it leads to is there, and every heading within one', () => {
  for (const [, link = ''] of readme.matchAll(/\]\(([^)]+)\)/g)) {
    const [path = '', heading] = link.split('#');
    expect([link, existsSync(join(root, path))]).toEqual([link, true]);
    if (heading === undefined) continue;
    const headings = [...readFileSync(join(root, path), 'utf8').matchAll(/^#+ (.+)$/gm)].map(([, text = '']) =>
      text
        .toLowerCase()
        .replaceAll(/[^\p{L}\p{N} -]/gu, '')
        .replaceAll(' ', '-'),
    );
    expect(headings).toContain(heading);
  }
});

test('it never says that a system is safe', () => {
  expect(readme.match(/\bsafe\b/g)).toEqual(['safe']);
  expect(readme).toContain('It never says that a system is safe.');
});
