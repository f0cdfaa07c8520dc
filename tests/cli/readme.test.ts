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
  expect(others).toHaveLength(2);
  for (const block of others) {
    const { status, stderr } = spawnSync('bash', ['-ec', block], { cwd: folder.path, encoding: 'utf8' });
    expect([status, stderr.replace(/1 row refused; .*\n/, '')]).toEqual([0, '']);
  }
  expect(existsSync(join(folder.path, 'dryhold-report', 'index.html'))).toBe(true);
});

test('every command of the table exists, and none is left out', () => {
  const told = [...readme.matchAll(/^\| `([a-z]+)[^`]*` \|/gm)]
    .map(([, name = '']) => name)
    .filter((name) => !['pass', 'suspect', 'fail', 'not', 'missing'].includes(name));
  const listed = [...dryhold(['--help']).stdout.matchAll(/^ {2}([a-z]+) \[/gm)].map(([, name = '']) => name);
  expect(told).toEqual(listed.filter((name) => name !== 'help'));
});

test('every file that it leads to is there', () => {
  for (const [, path = ''] of readme.matchAll(/\]\(([^)]+)\)/g))
    expect([path, existsSync(join(root, path))]).toEqual([path, true]);
});

test('it never says that a system is safe', () => {
  expect(readme.match(/\bsafe\b/g)).toEqual(['safe']);
  expect(readme).toContain('It never says that a system is safe.');
});
