import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';
import { bash, samples } from '../cli/dryhold-process.ts';
import { PlantedTree } from '../guards/planted-tree.ts';
import { notebookText } from './notebook-files.ts';

const tree = new PlantedTree();
const note = '=HYPERLINK("http://a.example")';
const blocks = [...notebookText('reading-exports.md').matchAll(/^```(sh|python|r)\n(.*?)^```$/gms)].map(
  ([, language = '', block = '']) => ({ language, block }),
);
const [exporting, ...others] = blocks;
let counted: Readonly<Record<string, unknown>>;

beforeAll(async () => {
  const quoted = `"${note.replaceAll('"', '""')}"`;
  tree.plant({
    'in/jobs.csv': `job_id,started_at,technician_id,note\n0042,2026-05-11T21:10:00-06:00,pip-lathe,${quoted}\n`,
  });
  const store = await Store.open(join(tree.root, 'dryhold-store'), 'write');
  try {
    await ingest(store, [join(tree.root, 'in'), join(samples, 'bundle-csv')]);
    await judge(store);
    [counted] = await store.rows(
      `SELECT (SELECT count(*) FROM jobs) AS jobs, count(*) FILTER (isinf(vacuum_pa)) AS over, min(vacuum_pa) AS deepest FROM readings`,
    );
  } finally {
    await store.close();
  }
  const { status, stderr } = bash(exporting.block, tree.root);
  if (status !== 0) throw new Error(stderr);
}, 60_000);
afterAll(() => tree[Symbol.dispose]());

const run = (command: string, args: readonly string[]) =>
  spawnSync(command, args, { cwd: tree.root, encoding: 'utf8', env: { ...process.env, HOME: tree.root } });
const runs = (command: string, ...args: string[]): boolean => run(command, args).status === 0;

/** What a block is run by, and whether this machine has it and what it loads. */
function programOf(language: string, block: string): { command: string; args: string[]; lacks: string | null } {
  if (language === 'sh')
    return { command: 'bash', args: ['-ec', block], lacks: runs('which', 'soffice') ? null : 'LibreOffice' };
  const [command, flag, load] =
    language === 'r'
      ? (['Rscript', '-e', /^library\((\w+)\)/gm] as const)
      : (['python3', '-c', /^import (\w+)/gm] as const);
  const modules = [...block.matchAll(load)].map(([, name = '']) => name);
  // Parquet is read by a module that pandas loads when it is asked for.
  if (block.includes('pd.read_parquet')) modules.push('pyarrow');
  const probe = (name: string) => (language === 'r' ? `library(${name})` : `import ${name}`);
  const lacks = runs(command, flag, '1') ? modules.find((name) => !runs(command, flag, probe(name))) : command;
  return { command, args: [flag, block], lacks: lacks ?? null };
}

test('the page has a block for each way', () => {
  expect(blocks.map(({ language }) => language).join(' ')).toBe('sh python python python python python python r r sh');
});

describe('a block runs as it stands, and counts what SQL counts', () => {
  const cases = others.map(({ language, block }, at) => ({ title: `${language}, block ${at + 2}`, language, block }));
  test.for(cases)('$title', { timeout: 60_000 }, ({ language, block }, { skip }) => {
    const { command, args, lacks } = programOf(language, block);
    // Said in the list of tests: what was not tried is not known to work.
    skip(lacks !== null, `this machine has no ${lacks}`);
    const { status, stdout, stderr } = run(command, args);
    expect([status, status === 0 ? '' : stderr]).toEqual([0, '']);
    const told = [...stdout.matchAll(/^(jobs|over|deepest) (.+)$/gm)].map(([, name = '', value]) => [
      name,
      Number(value),
    ]);
    expect(Object.fromEntries(told)).toEqual(Object.fromEntries(told.map(([name]) => [name, counted[name]])));
    expect(told.length > 0 || language === 'sh').toBe(true);
    if (/\bnote\b/.test(block)) expect(stdout).toContain(note);
  });
});
