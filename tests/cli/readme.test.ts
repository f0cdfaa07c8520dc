import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { dryholdProgram } from '../../src/cli/program.ts';
import { readRun } from '../../src/cli/run/declared-run.ts';
import { parseSourceMap } from '../../src/sources/parse-source-map.ts';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (page: string) => readFileSync(join(root, page), 'utf8');
const blocksOf = (page: string, language: string) =>
  [...read(page).matchAll(new RegExp(`\`\`\`${language}\\n(.*?)\`\`\``, 'gs'))].map(([, block = '']) => block);
const docs = readdirSync(join(root, 'docs'))
  .filter((name) => name.endsWith('.md'))
  .sort()
  .map((name) => `docs/${name}`);
/** In the order in which their blocks run: later ones use what earlier ones made. */
const pages = ['README.md', ...docs, 'sample-data/README.md', 'pipelines/README.md', 'notebooks/README.md'];
const readme = read('README.md');
const folder = temporaryFolder();
afterAll(() => folder.remove());

test('the first two blocks are what a fresh machine needs', () => {
  expect(blocksOf('README.md', 'sh').slice(0, 2)).toEqual(['npm ci && npm run demo\n', 'npm ci && npm test\n']);
});

test('every other block runs as it stands', { timeout: 120_000 }, () => {
  for (const name of ['bin', 'sample-data', 'pipelines', 'notebooks'])
    symlinkSync(join(root, name), join(folder.path, name));
  const others = pages.flatMap((page) => blocksOf(page, 'sh').map((block) => ({ page, block }))).slice(2);
  expect(others.filter(({ block }) => block.includes('npm ci'))).toEqual([]);
  expect(others.filter(({ page }) => page === 'README.md')).toHaveLength(5);
  expect(others.length).toBeGreaterThanOrEqual(12);
  for (const { page, block } of others) {
    const { status, stderr } = spawnSync('bash', ['-ec', block], { cwd: folder.path, encoding: 'utf8' });
    expect([page, block, status, stderr.replace(/1 row refused; .*\n/g, '')]).toEqual([page, block, 0, '']);
  }
  expect(existsSync(join(folder.path, 'dryhold-report', 'index.html'))).toBe(true);
});

test('the example of the physics runs as it stands', () => {
  const [code = '', ...others] = pages.flatMap((page) => blocksOf(page, 'js'));
  expect(others).toEqual([]);
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

test('every map and every declared run that a page shows is one', () => {
  const shown = pages.flatMap((page) => blocksOf(page, 'json').map((block) => ({ page, block })));
  const isRun = ({ block }: { block: string }) => 'steps' in (JSON.parse(block) as object);
  const maps = shown.filter((one) => !isRun(one)).map(({ page, block }) => parseSourceMap(block, page));
  expect(maps.map(({ name }) => name)).toEqual(['office-list']);
  const runs = shown.filter(isRun).map(({ block }) => {
    const file = join(folder.path, 'shown.json');
    writeFileSync(file, block);
    return readRun(file, dryholdProgram(), {});
  });
  expect(runs.map(({ name }) => name)).toEqual(['nightly']);
});

test('every command of the table exists, and none is left out', () => {
  const [, section = ''] = /^## Commands\n(.*?)^## /ms.exec(readme) ?? [];
  const told = [...section.matchAll(/^\| `([a-z]+)[^`]*` \|/gm)].map(([, name = '']) => name);
  const listed = [...dryhold(['--help']).stdout.matchAll(/^ {2}([a-z]+) \[/gm)].map(([, name = '']) => name);
  expect(told).toEqual(listed.filter((name) => name !== 'help'));
});

test('every file that a page leads to is there, and every heading within one', () => {
  const linking = [...pages, 'DEVELOPERS.md', 'GLOSSARY.md', 'CHANGELOG.md', 'tests/truth/README.md'];
  for (const page of linking) {
    for (const [, link = ''] of read(page).matchAll(/\]\(([^)]+)\)/g)) {
      const [path = '', heading] = link.split('#');
      const target = path === '' ? page : join(dirname(page), path);
      expect([page, link, existsSync(join(root, target))]).toEqual([page, link, true]);
      if (heading !== undefined)
        expect([page, link, headingsOf(target)]).toEqual([page, link, expect.arrayContaining([heading])]);
    }
  }
});

/** The headings of a page, as links name them. */
function headingsOf(page: string): string[] {
  return [...read(page).matchAll(/^#+ (.+)$/gm)].map(([, text = '']) =>
    text
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-'),
  );
}

test('the first page leads to every other, and shows each picture with what is to be seen on it', () => {
  for (const page of docs) expect(readme).toContain(`](${page}`);
  const shown = [...readme.matchAll(/!\[([^\]]{60,})\]\(docs\/pictures\/([a-z-]+\.png)\)/g)].map(([, , file]) => file);
  expect(shown.sort()).toEqual(readdirSync(join(root, 'docs', 'pictures')).sort());
});

test('no page says that a system is safe', () => {
  expect(readme.match(/\bsafe\b/g)).toEqual(['safe']);
  expect(readme).toContain('It never says that a system is safe.');
  for (const page of pages)
    expect([page, read(page).replaceAll('It never says that a system is safe.', '')]).toEqual([
      page,
      expect.not.stringMatching(/\bsafe\b/),
    ]);
});
