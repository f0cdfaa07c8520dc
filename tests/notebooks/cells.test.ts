import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, test } from 'vitest';
import { notebookParts } from '../../src/pages/notebook/notebook-parts.ts';
import { notebookModule } from '../../src/steps/notebook/notebook-module.ts';
import { PlantedTree, projectRoot } from '../guards/planted-tree.ts';
import { notebookFiles } from './notebook-files.ts';

const moduleOf = (markdown: string): string => notebookModule(markdown, notebookParts(markdown));

/** What a module imports, however it says so. */
const importsOf = (module: string): string[] =>
  [...module.matchAll(/\b(?:from|import|require)\s*\(?\s*['"`]([^'"`]+)['"`]/g)].map(([, name = '']) => name);

test('notebooks see the index alone: their cells import from dryhold and nothing else', () => {
  expect(notebookFiles.map((path) => basename(path))).toEqual([
    'a-crews-season.md',
    'how-long-should-our-rise-test-be.md',
    'the-years-refrigerant.md',
    'what-foretells-callbacks.md',
  ]);
  for (const path of notebookFiles)
    expect([path, [...new Set(importsOf(moduleOf(readFileSync(path, 'utf8'))))]]).toEqual([path, ['dryhold']]);
});

test('an import of anything else is seen in every form', () => {
  const cells = ["import 'a';", "import b from 'b';", "export * from 'c';", "await import('d');", "require('e');"];
  const markdown = cells.map((cell) => `\`\`\`ts\n${cell}\n\`\`\`\n`).join('\n');
  expect(importsOf(moduleOf(markdown))).toEqual(['a', 'b', 'c', 'd', 'e']);
});

/** Has the compiler check notebooks by their names, by the project's own settings; what it says. */
function typeFaults(notebooks: Readonly<Record<string, string>>): string {
  using tree = new PlantedTree().plant({
    'package.json': '{ "type": "module" }',
    'tsconfig.json': JSON.stringify({
      extends: join(projectRoot, 'tsconfig.json'),
      compilerOptions: {
        paths: { dryhold: [join(projectRoot, 'src', 'index.ts')] },
        typeRoots: [join(projectRoot, 'node_modules', '@types')],
      },
      include: ['*.ts'],
    }),
    ...Object.fromEntries(
      Object.entries(notebooks).map(([name, markdown]) => [name.replace('.md', '.ts'), moduleOf(markdown)]),
    ),
  });
  const tsc = join(projectRoot, 'node_modules', '.bin', 'tsc');
  return spawnSync(tsc, ['--project', tree.root], { cwd: tree.root, encoding: 'utf8' }).stdout;
}

test('the compiler finds the cells of all notebooks right, and a wrong one by the line of its notebook', () => {
  const planted = "# A\n\nText.\n\n```ts\nimport { median } from 'dryhold';\n\nmedian('no numbers');\n```\n";
  const all = Object.fromEntries(notebookFiles.map((path) => [basename(path), readFileSync(path, 'utf8')]));
  expect(typeFaults({ ...all, 'planted.md': planted })).toMatch(/^planted\.ts\(8,8\): error TS2345: [^\n]*\n$/);
});

test('lines and columns of the module are those of the notebook, whatever stands between the cells', () => {
  const markdown =
    '# A\r\n\r\n  ```ts\r\n  one();\r\n  ```\r\nText\r\n````ts more\r\ntwo();\r\n```\r\nthree();\r\n````\r\n';
  const { parts } = notebookParts(markdown);
  expect(notebookModule(markdown, { parts }, (line) => `open(${line});`).split('\n')).toEqual([
    '',
    '',
    'open(3);',
    '  one();',
    '',
    '',
    'open(7);',
    'two();',
    '```',
    'three();',
    '',
    '',
  ]);
});

test('cells within lists and quotations are told, other fences are text, and no HTML or picture comes through', () => {
  const { parts, notRun, title, lead } = notebookParts(
    '# A *b*\n\nOne\ntwo <i>three</i> ![x](http://a.example/b.png) [y](javascript:z)\n\n- ```ts\n  a();\n  ```\n\n> ```ts\n> b();\n> ```\n\n```sh\nls\n```\n',
  );
  expect([notRun, title, lead?.startsWith('One two')]).toEqual([[6, 10], 'A b', true]);
  const html = parts.map((part) => ('html' in part ? part.html.source : 'a cell')).join('');
  expect(html).not.toMatch(/<i>|<img|href="javascript|a cell/);
  expect(html).toContain('ls');
});
