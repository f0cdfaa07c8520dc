import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Outcome, PlantedTree, scripts } from './planted-tree.ts';

test('npm run check runs every guard, and stops at the first that fails', () => {
  const guards = Object.keys(scripts).filter((name) => name.startsWith('check:'));
  expect(guards).toEqual(['check:format', 'check:lint', 'check:types', 'check:borders', 'check:generated']);
  expect(scripts['check'].split(' && ')).toEqual(guards.map((name) => `npm run -s ${name}`));
});

test('format: a badly formatted file', () => {
  using tree = new PlantedTree().copy('biome.json').plant({ 'src/a.ts': "export const a = ['b'];\n" });
  expect(tree.run('check:format')).toMatchObject({ status: 0 });

  const { status, output } = tree.plant({ 'src/a.ts': 'export const a = [ "b" ]\n' }).run('check:format');
  expect(status).toBe(1);
  expect(output).toContain('src/a.ts');
});

const base = { 'src/a.ts': 'export const a = 1;\n', 'src/t.ts': 'export const t = 1;\nexport type T = number;\n' };

/** A tree with the project's configuration and sound files, to plant in. */
const typed = () =>
  new PlantedTree().copy('.oxlintrc.json', 'tsconfig.json', 'package.json').link('node_modules').plant(base);

/** What each guard finds, and a file in which it must find it. */
const planted: Record<'check:lint' | 'check:types', [fault: string, path: string, text: string][]> = {
  'check:lint': [
    ['typescript(no-floating-promises)', 'src/floating.ts', 'const f = async () => 1;\nf();\n'],
    ['typescript(no-misused-promises)', 'src/misused.ts', 'const f = async () => 1;\n[1].forEach(f);\n'],
    ['typescript(no-explicit-any)', 'src/any.ts', 'export const a: any = 1;\n'],
    [
      'typescript(consistent-type-imports)',
      'src/value-import.ts',
      "import { T } from './t.ts';\nexport const a: T = 1;\n",
    ],
    ['typescript(consistent-type-imports)', 'src/inline.ts', "export const a: import('./t.ts').T[] = [];\n"],
    ['typescript(require-array-sort-compare)', 'src/sort.ts', 'export const a = [10, 9].sort();\n'],
    ['typescript(switch-exhaustiveness-check)', 'src/switch.ts', switchOver('a', 'b')],
    ['eslint(eqeqeq)', 'src/equal.ts', 'export const a = (b: number) => b == 1;\n'],
    ['eslint(no-unused-vars)', 'src/unused.ts', 'const a = 1;\n'],
    ['import(extensions)', 'src/extension.ts', "import { t } from './t';\nexport const a = t;\n"],
    [
      'vitest(expect-expect)',
      'tests/a.test.ts',
      "import { test } from 'vitest';\n\ntest('a', () => {\n  Math.sqrt(2);\n});\n",
    ],
  ],
  'check:types': [
    ['TS2322', 'src/wrong.ts', "export const a: number = 'b';\n"],
    ['TS1294', 'src/enum.ts', 'export enum A {\n  b,\n}\n'],
    ['TS1484', 'src/value-import.ts', "import { T } from './t.ts';\nexport const a: T = 1;\n"],
    ['TS6133', 'src/unused.ts', 'export const f = (a: number) => 1;\n'],
  ],
};

/** A switch that knows the first of two words alone. */
function switchOver(known: string, other: string): string {
  return `export function f(a: '${known}' | '${other}') {\n  switch (a) {\n    case '${known}':\n      return 1;\n  }\n  return 2;\n}\n`;
}

describe.each(Object.entries(planted))('%s', (script, plantings) => {
  let sound: Outcome;
  let outcome: Outcome;
  beforeAll(() => {
    using tree = typed();
    sound = tree.run(script);
    outcome = tree.plant(Object.fromEntries(plantings.map(([, path, text]) => [path, text]))).run(script);
  });

  test('passes a sound tree', () => {
    expect(sound).toMatchObject({ status: 0 });
  });

  test.each(plantings)('reports %s in %s', (fault, path) => {
    expect(outcome.status).not.toBe(0);
    // A report is a paragraph (lint) or a line (types) that holds both the fault and its place.
    const reports = outcome.output.split(script === 'check:lint' ? /\n\s*\n/ : '\n');
    expect(reports.filter((report) => report.includes(fault) && report.includes(path))).not.toEqual([]);
  });
});

describe('check:generated', () => {
  const generated = [
    'GLOSSARY.md',
    'policy.schema.json',
    'records.schema.json',
    'run.schema.json',
    'source-map.schema.json',
    'src/physics/tables/r-32.ts',
    'src/physics/tables/saturation-tables.ts',
  ];

  test('names every file that was edited by hand or emptied, and generate mends them', { timeout: 300_000 }, () => {
    // A copy: what is generated into src must not reach the project's own.
    using tree = new PlantedTree().copy('src').link('node_modules');
    expect(tree.run('generate')).toMatchObject({ status: 0 });
    expect(tree.run('check:generated')).toMatchObject({ status: 0, output: '' });

    const texts = generated.map((path) => readFileSync(join(tree.root, path), 'utf8'));
    for (const edit of [(text: string) => text.replace(/job|183/, 'jab'), () => '']) {
      const edited = Object.fromEntries(generated.map((path, i) => [path, edit(texts[i])]));
      // The list of tables is imported, and must still be code.
      edited['src/physics/tables/saturation-tables.ts'] = `${texts.at(-1)}// one more line\n`;
      edited['src/physics/tables/r-32.ts'] = `${texts.at(-2)?.replace(/183\.\d+/, '183.2')}`;
      const { status, output } = tree.plant(edited).run('check:generated');
      expect(status).toBe(1);
      expect(
        output
          .trim()
          .split('\n')
          .map((line) => line.split(': ')[0]),
      ).toEqual(generated);
      expect(output).toContain(`${generated[0]}: not what src/cli/generate.ts makes; run: npm run generate`);
    }
    expect(tree.run('generate')).toMatchObject({ status: 0 });
    expect(generated.map((path) => readFileSync(join(tree.root, path), 'utf8'))).toEqual(texts);
  });
});
