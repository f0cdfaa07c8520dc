import { expect, test } from 'vitest';
import { PlantedTree, projectRoot } from './planted-tree.ts';
import { treeFaults } from './tree-faults.ts';

test('the tree keeps to its layout', () => {
  expect(treeFaults(projectRoot)).toEqual([]);
});

const long = (line: string) => `${line}\n`.repeat(301);
const slash = (...parts: string[]) => parts.join('/');

const faults: [string, string, string][] = [
  ['src/units/long.ts', long('export const f = () => 1;'), '301 lines, more than 300'],
  ['tests/long.test.ts', long("test('a', () => {});"), '301 lines, more than 300'],
  ['src/store/queries/long.sql', long('-- a\nselect 1'), '602 lines, more than 300'],
  ['src/units/CamelCase.ts', '', 'not kebab-case'],
  ['src/units/snake_case.ts', '', 'not kebab-case'],
  ['src/Units/pressure.ts', '', 'not kebab-case'],
  ['src/units/utils.ts', '', 'named after nothing it holds'],
  ['tests/helpers.ts', '', 'named after nothing it holds'],
  ['src/records/types.test.ts', '', 'named after nothing it holds'],
  ['src/a/b/c/d.ts', '', 'more than three levels of folders'],
  ['src/a.ts', `const path = '${slash('', 'tmp', 'a')}';\n`, 'names a path of some machine'],
  ['DEVELOPERS.md', `Look in ${slash('', 'home', 'someone', 'notes')}.\n`, 'names a path of some machine'],
  ['.ci/run', `cd ${slash('', 'work', 'main')}\n`, 'names a path of some machine'],
  [
    'package-lock.json',
    `"resolved": "${slash('https:', '', 'registry.example', 'zod')}"\n`,
    'names a package registry',
  ],
  ['.npmrc', `registry${'='}${slash('https:', '', 'example', '')}\n`, 'names a package registry'],
];

test.each(faults)('a planted fault is seen: %s', (path, text, fault) => {
  using tree = new PlantedTree().plant({ [path]: text });
  expect(treeFaults(tree.root)).toEqual([`${path}: ${fault}`]);
});

test('what is allowed passes: data tables, relative and web paths, build output', () => {
  using tree = new PlantedTree().plant({
    'src/physics/r-410a.ts': `export const rows = [\n${long('  [1, 2],')}] as const;\n`,
    'src/checks/rise/leaking.test.ts': `const a = '${slash('..', 'tmp', 'a')} ${slash('https:', '', 'a.example', 'home', 'b')}';\n`,
    'src/store/queries/schema-1.sql': 'select 1;\n',
    'tests/references/iso-2533/README.md': '',
    'README.md': '',
    'node_modules/some_package/Index.js': `'${slash('', 'tmp', 'a')}'\n`,
    'dist/Index.js': '',
    'sample-data/Their Export.csv': '',
  });
  expect(treeFaults(tree.root)).toEqual([]);
});
