import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import type { ReportResult } from '../../src/steps/report.ts';
import { Store } from '../../src/store/store.ts';
import { hasChromium } from '../pages/chromium.ts';
import { hasPdfReader, printedPages } from '../pages/printed-pages.ts';
import { dryhold, samples, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const at = (...parts: string[]) => join(folder.path, ...parts);
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });
const files = (below: string) =>
  readdirSync(at(below), { recursive: true, encoding: 'utf8', withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('.'))
    .map((entry) => join(entry.parentPath, entry.name).slice(at(below).length + 1))
    .sort();
const beginning = (path: string) => readFileSync(at(path)).subarray(0, 5).toString('latin1');

beforeAll(async () => {
  const store = await Store.open(at('dryhold-store'), 'write');
  await ingest(store, [join(samples, 'bundle-csv'), join(samples, 'charges')]);
  await judge(store);
  await store.close();
}, 60_000);
afterAll(() => folder.remove());

describe.skipIf(!hasChromium)('on paper', () => {
  test('a report is its pages, each a PDF on the sheets of the units; pages for a browser that lie there stay', () => {
    const html = JSON.parse(run('report', '--out', 'out', '--json').stdout) as ReportResult;
    const pages = files('out');
    const { status, stdout, stderr } = run('report', '--out', 'out', '--format', 'pdf', '--units', 'si', '--codes');
    expect([status, stdout]).toEqual([0, 'out/index.pdf\n']);
    expect(stderr).toBe(
      `${html.sheets + html.jobPages + 4} files of earlier reports in other formats stay in out; made without --codes, they hold names\n`,
    );
    const printed = files('out').filter((name) => name.endsWith('.pdf'));
    expect(printed.filter((name) => name.startsWith('jobs/')).map((name) => name.replace('.pdf', '.html'))).toEqual(
      pages.filter((name) => name.startsWith('jobs/')),
    );
    expect(printed).toEqual(expect.arrayContaining(['index.pdf', 'owner.pdf', 'service-manager.pdf', 'trainer.pdf']));
    for (const name of printed) expect([name, beginning(join('out', name))]).toEqual([name, '%PDF-']);
    if (!hasPdfReader) return;
    const sheets = printed.flatMap((name) => printedPages(readFileSync(at('out', name))));
    expect(sheets.every(({ widthPt }) => Math.abs(widthPt - 595.3) < 1)).toBe(true);
    expect(sheets.flatMap(({ words }) => words.map(({ text }) => text))).not.toContain('Lathe');
  });

  test('so is one job, on letter paper, beside its page for a browser', () => {
    const { status, stdout } = run('show', 'W-103', '--html', 'w.html', '--pdf', 'w.pdf');
    expect([status, stdout, beginning('w.pdf'), beginning('w.html')]).toEqual([0, 'w.html\nw.pdf\n', '%PDF-', '<!doc']);
    if (!hasPdfReader) return;
    const [first] = printedPages(readFileSync(at('w.pdf')));
    expect([first.widthPt, first.heightPt]).toEqual([612, 792]);
    const said = first.words.map(({ text }) => text);
    expect(said).toEqual(expect.arrayContaining(['W-103', 'Lathe']));
  });
});

test('each chart is a picture and a specification', () => {
  const { status, stdout } = run('report', '--out', 'slides', '--format', 'png', '--specs', '--json');
  const result = JSON.parse(stdout) as ReportResult;
  expect([status, result.page, result.pages, result.others]).toEqual([0, 'slides/charts', null, 0]);
  const [pictures, specs] = [files('slides/charts'), files('slides/specs')];
  expect(pictures.length).toBeGreaterThan(5);
  expect([result.pictures, result.specs]).toEqual([pictures.length, specs.length]);
  expect(specs.map((name) => name.replace('.vl.json', '.png'))).toEqual(pictures);
  for (const name of pictures) expect([name, beginning(join('slides', 'charts', name))]).toEqual([name, '\u0089PNG\r']);
  expect(existsSync(at('slides', 'index.html'))).toBe(false);
});

test('what says nothing of what is asked is refused', () => {
  for (const [args, says] of [
    [['report', '--paper', 'a4'], '--paper says on which sheets a PDF is; ask for one as well'],
    [['show', 'W-103', '--html', 'a', '--pdf', './a'], '--html and --pdf name the same file, a'],
  ] as const) {
    const { status, stdout, stderr } = run(...args);
    expect([status, stdout, stderr]).toEqual([2, '', `dryhold: ${says}\n`]);
  }
});
