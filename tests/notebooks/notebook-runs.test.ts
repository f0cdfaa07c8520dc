import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { notebookParts } from '../../src/pages/notebook/notebook-parts.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { notebookModule } from '../../src/steps/notebook/notebook-module.ts';
import { shownOutput } from '../../src/steps/notebook/shown-output.ts';
import { shownPeople } from '../../src/steps/notebook/shown-people.ts';
import { type WriteNotebooksOptions, writeNotebooks } from '../../src/steps/notebook/write-notebooks.ts';
import { Store } from '../../src/store/store.ts';
import { command, dryhold, samples } from '../cli/dryhold-process.ts';
import { PlantedTree, projectRoot } from '../guards/planted-tree.ts';
import { hasChromium, startChromium } from '../pages/chromium.ts';
import { openPage } from '../pages/open-page.ts';
import { notebookFiles, notebookText } from './notebook-files.ts';

const tree = new PlantedTree();
const at = (...parts: string[]) => join(tree.root, ...parts);
const hostile = '</script><script>alert(1)</script><img src=x onerror=alert(2)>\u202e=1+1';

beforeAll(async () => {
  tree.plant({ 'in/jobs.csv': `job_id,started_at,crew_id,note\nH-1,2026-06-15T09:00:00-06:00,north,"${hostile}"\n` });
  const store = await Store.open(at('dryhold-store'), 'write');
  try {
    await ingest(store, [at('in'), join(samples, 'bundle-csv')]);
    await judge(store);
  } finally {
    await store.close();
  }
}, 60_000);
afterAll(() => tree[Symbol.dispose]());

/** A notebook of some cells, each after a line of text; the first opens the store. */
const notebook = (...cells: string[]): string =>
  ["import { openNotebook } from 'dryhold';\nconst { query, show, names } = await openNotebook();", ...cells]
    .map((cell) => `Text.\n\n\`\`\`ts\n${cell}\n\`\`\`\n`)
    .join('\n')
    .replace(/^/, '# A notebook\n\n');

/** Runs notebooks, name → text, into the folder `pages`. */
function written(notebooks: Readonly<Record<string, string>>, options: Partial<WriteNotebooksOptions> = {}) {
  tree.plant(notebooks);
  return writeNotebooks(
    Object.keys(notebooks).map((name) => at(name)),
    at('pages'),
    {
      storeFolder: at('dryhold-store'),
      codes: false,
      reader: { units: 'ip', dates: 'day-first' },
      ...options,
    },
  );
}

describe('a cell that fails is told by the line of its notebook', () => {
  // The second cell begins on line 12.
  const faults: [what: string, cell: string, told: RegExp][] = [
    [
      'something thrown',
      'const a: number = 1;\n\nthrow new RangeError(`no ${a}`);',
      /:15:7: RangeError: no 1; nothing of this/,
    ],
    ['in the store', "await query('SELECT nothing FROM nowhere');", /:13:\d+: query refused: .*nowhere does not exist/],
    [
      'a promise that nobody awaits',
      "void Promise.reject(new Error('left'));\nawait new Promise(() => setTimeout(() => {}, 9000));",
      /:13:\d+: Error: left/,
    ],
    ['wrong TypeScript', 'const b: = 1;', /:13: SyntaxError/],
    ['an import that there is not', "import { nope } from 'dryhold';\nnope();", /:13: SyntaxError: .*'nope'/],
    [
      'a chart that Vega-Lite does not take',
      "show({ mork: 'bar' }, { title: 'What?', description: 'Bars' });",
      /:12: "What\?" is no chart/,
    ],
    ['an end of its own process', 'process.exit(4);', /:12: the notebook ended its own process \(status 4\)/],
  ];

  test.each(faults)('%s', { timeout: 20_000 }, async (_, cell, told) => {
    await expect(written({ 'fails.md': notebook(cell) })).rejects.toThrow(told);
    expect(existsSync(at('pages', 'fails.html'))).toBe(false);
  });

  test('a ts cell that is not at the margin, before anything is run', async () => {
    const files = { 'runs.md': notebook("show('no');"), 'list.md': '# A\n\n- ```ts\n  1;\n  ```\n' };
    await expect(written(files)).rejects.toThrow(/list\.md:3: a ts cell within a list/);
    expect(existsSync(at('pages', 'runs.html'))).toBe(false);
  });
});

test('the command: status 3, one line, the page that was there stays, and what came before it is written', () => {
  tree.plant({
    'good.md': notebook("console.log('aside');\nshow('fine');"),
    'bad.md': notebook("show('half');", "throw new Error('x\\u001b[2J');"),
  });
  tree.plant({ 'out/bad.html': 'of old' });
  const run = dryhold(['notebook', 'good.md', 'bad.md', '--out', 'out'], { cwd: tree.root });
  expect([run.status, run.stdout]).toEqual([3, '']);
  expect(run.stderr).toBe('aside\ndryhold: bad.md:19:7: Error: x\\u{1b}[2J; nothing of this notebook is written\n');
  expect(readFileSync(at('out', 'bad.html'), 'utf8')).toBe('of old');
  expect(readFileSync(at('out', 'good.html'), 'utf8')).toContain('<p>fine</p>');
});

test('told to end, the command ends the notebook too, even one that hears of nothing', async () => {
  tree.plant({ 'loop.md': "# Loop\n\n```ts\nconsole.log('begun', process.pid);\nfor (;;);\n```\n" });
  const child = spawn(process.execPath, [command, 'notebook', 'loop.md'], { cwd: tree.root });
  const [said] = (await once(child.stderr.setEncoding('utf8'), 'data')) as [string];
  const pid = Number(/begun (\d+)/.exec(said)?.[1]);
  expect(isRunning(pid)).toBe(true);
  child.kill('SIGTERM');
  expect(await once(child, 'close')).toEqual([null, 'SIGTERM']);
  await expect.poll(() => isRunning(pid)).toBe(false);
});

/** Whether a process is there and does something: one that has ended may stay listed. */
function isRunning(pid: number): boolean {
  try {
    return !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, 'utf8'));
  } catch {
    return false;
  }
}

test('for machines: all that was shown, and nothing else', () => {
  tree.plant({
    'rows.md': notebook(
      "console.log('aside');\nshow([{ a: 1, b: null, c: Number.POSITIVE_INFINITY }], { title: 'Rows' });",
    ),
  });
  symlinkSync(tree.root, at('link'));
  const run = dryhold(['notebook', join('link', 'rows.md'), '--json', '--quiet'], { cwd: tree.root });
  expect([run.status, run.stderr]).toEqual([0, '']);
  expect(JSON.parse(run.stdout)).toEqual([
    {
      file: join('link', 'rows.md'),
      title: 'A notebook',
      page: join('dryhold-notebooks', 'rows.html'),
      cells: [
        { line: 5, outputs: [] },
        { line: 12, outputs: [{ kind: 'table', title: 'Rows', rows: [{ a: 1, b: null, c: null }] }] },
      ],
      warnings: [],
    },
  ]);
});

test('what is shown needs its words, and a chart its rows', () => {
  const chart = { layer: [{ mark: 'bar', data: { url: 'rows.csv' } }] };
  expect(() => shownOutput([{ a: 1 }])).toThrow('a table needs a title');
  expect(() => shownOutput(chart, { title: 'What?' })).toThrow('a chart needs the question');
  expect(() => shownOutput(chart, { title: 'What?', description: 'Bars' })).toThrow('loads its rows from a url');
  const rows = { mark: 'bar', data: { values: [{ data: { url: 'a' } }] } };
  expect(shownOutput(rows, { title: 'What?', description: 'Bars' })).toMatchObject({ kind: 'chart', heightPx: 300 });
});

test('by codes: a notebook that names somebody is refused, and gets codes for them', async () => {
  const cell = "show([{ n: 1 }, { 'of whom': 'Pip Lathe was there' }], { title: 'Rows' });";
  await expect(written({ 'named.md': notebook(cell) }, { codes: true })).rejects.toThrow(
    /named\.md:1: shows a technician/,
  );
  const joined = notebook(
    "show((await query<{ n: string }>('SELECT display_name AS n FROM people ORDER BY n'))[1].n);",
  );
  await expect(written({ 'named.md': joined }, { codes: true })).rejects.toThrow(/named\.md:12: shows a technician/);
  const coded = notebook("show(names.technician(['pip', 'lathe'].join('-')));");
  const [{ cells }] = await written({ 'named.md': coded }, { codes: true });
  expect(cells[1].outputs).toEqual([{ kind: 'sentence', text: 'P002' }]);
});

test('who is named is found as a word in any writing, what is short as a whole text alone', async () => {
  tree.plant({
    'few/people.csv': 'technician_id,display_name\n7,Al\nodd-2,Bo Reed\n',
    'few/jobs.csv': 'job_id,started_at,crew_id\nA-1,2026-06-15T09:00:00Z,n\n',
  });
  const store = await Store.open(at('few-store'), 'write');
  try {
    await ingest(store, [at('few')]);
    const named = await shownPeople(store);
    const told = [
      '7',
      'al',
      'by BO REED, 2026',
      'odd-2',
      'N',
      '17 jobs',
      'also',
      'Bo Reeds',
      'odd-20',
      '7 jobs',
      '',
    ].map(named);
    expect(told.map((name) => name !== undefined)).toEqual([true, true, true, true, true, ...Array(6).fill(false)]);
  } finally {
    await store.close();
  }
});

test.skipIf(!hasChromium)('hostile data do nothing in the page', async () => {
  const cell = `const [{ note }] = await query<{ note: string }>("SELECT note FROM jobs WHERE note IS NOT NULL");
show(note);
show([{ [note]: note }], { title: note });
show({ data: { values: [{ note, n: 1 }] }, mark: 'bar', encoding: { x: { field: 'n', type: 'quantitative' }, y: { field: 'note', type: 'nominal' } } }, { title: note, description: note });`;
  const [{ page: path }] = await written({ 'hostile.md': notebook(cell) });
  const browser = await startChromium();
  try {
    const html = readFileSync(path, 'utf8');
    const { page, complaints } = await openPage(browser, { file: path, html, width: 800, colorScheme: 'light' });
    expect(complaints).toEqual([]);
    expect(await page.locator('main img').count()).toBe(0);
    expect(await page.locator('main').innerText()).toContain(
      '</script><script>alert(1)</script><img src=x onerror=alert(2)>\\u{202e}=1+1',
    );
  } finally {
    await browser.close();
  }
});

test('every notebook reads well on a store of a few jobs, and says what is too little', {
  timeout: 60_000,
}, async () => {
  const results = await writeNotebooks(notebookFiles, at('small'), {
    storeFolder: at('dryhold-store'),
    codes: false,
    reader: { units: 'ip', dates: 'day-first' },
  });
  const little = [
    /So few jobs tell little/,
    /no rise test on record|So few tests tell little/,
    /no weighing on record/,
    /Too few to tell/,
  ];
  for (const [index, { file, cells, warnings }] of results.entries()) {
    const shown = JSON.stringify(cells);
    expect([file, warnings]).toEqual([file, []]);
    expect(shown).toMatch(little[index]);
    expect(shown).not.toMatch(/NaN|undefined|Infinity/);
  }
});

test('run by itself, a notebook opens the store that is named and prints', () => {
  const markdown = notebook(
    "show('A sentence.');\nshow([{ crew: 'x', jobs: 12.3456 }], { title: 'Jobs' });",
    "show({ mark: 'bar' }, { title: 'How?', description: 'Bars.' });",
  );
  const home = join(tree.root, 'home');
  tree.plant({
    'home/package.json': '{ "type": "module" }',
    'home/own.ts': notebookModule(markdown, notebookParts(markdown)),
  });
  mkdirSync(join(home, 'node_modules'));
  symlinkSync(projectRoot, join(home, 'node_modules', 'dryhold'), 'junction');
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--conditions=dryhold-source', 'own.ts'], {
    cwd: home,
    encoding: 'utf8',
    env: { ...process.env, DRYHOLD_STORE: at('dryhold-store') },
  });
  expect([status, stderr]).toEqual([0, '']);
  expect(stdout).toBe('A sentence.\nJobs\n  crew  jobs\n  x     12.35\nHow?\n  Bars.\n');
});

test('the example of the README runs as it stands', async () => {
  const [, example = ''] = /^````md\n(.*?)^````$/ms.exec(notebookText('README.md')) ?? [];
  const [{ cells }] = await written({ 'example.md': example });
  expect(cells.at(-1)?.outputs).toMatchObject([
    { kind: 'table', rows: [{ crew: 'east-van' }, { crew: 'north' }, { crew: 'west-van' }] },
  ]);
});
