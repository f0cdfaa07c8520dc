import { dirname, join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Outcome, PlantedTree, projectRoot } from './planted-tree.ts';

/** One import: the file it stands in, and the file or package that it names. */
type Edge = readonly [from: string, to: string];

const isFile = (to: string) => /^(src|tests|pipelines|notebooks)\//.test(to);

function specifier([from, to]: Edge): string {
  if (!isFile(to)) return to;
  const path = relative(dirname(from), to).replaceAll('\\', '/');
  return path.startsWith('.') ? path : `./${path}`;
}

const manifest = {
  type: 'module',
  dependencies: { zod: '1.0.0', '@duckdb/node-api': '1.0.0', 'apache-arrow': '1.0.0' },
  devDependencies: { ajv: '1.0.0' },
};

/** Runs the border check over a tree of those imports, in which every package but `absent` is installed. */
function cruise(edges: readonly Edge[], more: Record<string, string> = {}): Outcome {
  using tree = new PlantedTree().link('.ci').plant({ 'package.json': JSON.stringify(manifest) });
  for (const name of ['zod', '@duckdb/node-api', 'apache-arrow', 'ajv', 'stray']) {
    tree.plant({
      [`node_modules/${name}/package.json`]: JSON.stringify({ name, type: 'module', exports: './index.js' }),
      [`node_modules/${name}/index.js`]: '',
    });
  }
  const files: Record<string, string> = {};
  for (const edge of edges) {
    if (isFile(edge[1]) && !edge[1].includes('absent')) files[edge[1]] ??= '';
    files[edge[0]] = `${files[edge[0]] ?? ''}import '${specifier(edge)}';\n`;
  }
  return tree.plant(files).plant(more).run('check:borders');
}

/** Every broken border of an outcome, as `rule: from → to`; of a circle the first two files. */
function broken({ output }: Outcome): string[] {
  const lines = output.matchAll(/^([a-z-]+): (\S+) → (\S+)/gm);
  return [...lines].map(
    ([, rule, from, to]) => `${rule}: ${from} → ${to.replace(/^node_modules\/(.+)\/index.js$/, '$1')}`,
  );
}

/** For every rule what it forbids, once for each of its sides. */
const planted: Record<string, Edge[]> = {
  'errors-know-nothing': [['src/errors.ts', 'src/units/a.ts']],
  'references-know-nothing': [['src/references.ts', 'src/errors.ts']],
  'units-know-no-meaning': [
    ['src/units/c.ts', 'src/records/a.ts'],
    ['src/units/d.ts', 'src/numerics/a.ts'],
  ],
  'numerics-know-no-jobs': [
    ['src/numerics/c.ts', 'src/units/a.ts'],
    ['src/numerics/d.ts', 'src/physics/a.ts'],
  ],
  'physics-stands-alone': [
    ['src/physics/c.ts', 'src/units/a.ts'],
    ['src/physics/d.ts', 'src/records/a.ts'],
    ['src/physics/e.ts', 'zod'],
    ['src/physics/f.ts', 'fs'],
  ],
  'physics-loads-no-package': [['src/physics/g.ts', 'zod']],
  'tables-solve-nothing': [['src/physics/tables/c.ts', 'src/physics/equations/a.ts']],
  'records-know-no-files': [['src/records/c.ts', 'src/sources/a.ts']],
  'sources-only-read': [
    ['src/sources/c.ts', 'src/traces/a.ts'],
    ['src/sources/d.ts', 'src/facts/a.ts'],
  ],
  'traces-only-segment': [
    ['src/traces/c.ts', 'src/sources/a.ts'],
    ['src/traces/d.ts', 'src/facts/a.ts'],
  ],
  'facts-know-no-policy': [['src/facts/c.ts', 'src/checks/a.ts']],
  'checks-judge-facts': [
    ['src/checks/rise/c.ts', 'src/fleet/a.ts'],
    ['src/checks/d.ts', 'src/store/a.ts'],
  ],
  'fleet-counts-findings': [
    ['src/fleet/c.ts', 'src/accounts/a.ts'],
    ['src/fleet/d.ts', 'src/store/a.ts'],
  ],
  'accounts-stand-beside': [
    ['src/accounts/c.ts', 'src/fleet/a.ts'],
    ['src/accounts/d.ts', 'src/store/a.ts'],
  ],
  'store-keeps-only': [
    ['src/store/c.ts', 'src/charts/a.ts'],
    ['src/store/d.ts', 'src/steps/a.ts'],
  ],
  'charts-are-pure': [['src/charts/c.ts', 'src/pages/a.ts']],
  'pages-start-nothing': [['src/pages/c.ts', 'src/steps/a.ts']],
  'steps-know-no-command': [['src/steps/c.ts', 'src/cli/a.ts']],
  'cli-is-the-end': [
    ['src/index.ts', 'src/cli/a.ts'],
    ['src/simulate/c.ts', 'src/cli/a.ts'],
  ],
  'simulate-only-from-cli': [
    ['src/index.ts', 'src/simulate/a.ts'],
    ['src/steps/d.ts', 'src/simulate/a.ts'],
    ['pipelines/d.ts', 'src/simulate/a.ts'],
  ],
  'simulate-knows-no-judge': [
    ['src/simulate/d.ts', 'src/facts/a.ts'],
    ['src/simulate/e.ts', 'src/store/a.ts'],
  ],
  'index-is-for-outsiders': [['src/cli/c.ts', 'src/index.ts']],
  'pipelines-see-the-index-alone': [
    ['pipelines/e.ts', 'src/units/a.ts'],
    ['pipelines/f.ts', 'tests/a.ts'],
  ],
  'notebooks-see-the-index-alone': [
    ['notebooks/c.ts', 'src/units/a.ts'],
    ['notebooks/d.ts', 'pipelines/a.ts'],
  ],
  'nothing-builds-on-notebooks': [
    ['src/cli/d.ts', 'notebooks/a.ts'],
    ['pipelines/g.ts', 'notebooks/a.ts'],
  ],
  'src-knows-no-tests': [['src/cli/e.ts', 'tests/a.ts']],
  'database-only-in-store': [
    ['src/steps/e.ts', '@duckdb/node-api'],
    ['src/sources/e.ts', 'apache-arrow'],
    ['notebooks/e.ts', '@duckdb/node-api'],
  ],
  'no-dev-dependency-in-src': [['src/records/d.ts', 'ajv']],
  'packages-are-declared': [['src/records/e.ts', 'stray']],
  'no-circles': [['src/facts/d.ts', 'src/facts/e.ts']],
  'every-import-resolves': [
    ['src/records/f.ts', './absent.ts'],
    ['src/records/g.ts', 'absent'],
  ],
};

/** What the plantings above need beside the edge that breaks the rule. */
const beside: Edge[] = [
  ['src/physics/g.ts', 'src/numerics/e.ts'],
  ['src/numerics/e.ts', 'zod'],
  ['src/facts/e.ts', 'src/facts/d.ts'],
];

test('every rule has a reason and a planted violation', async () => {
  const config = (await import(pathToFileURL(join(projectRoot, '.dependency-cruiser.mjs')).href)) as {
    default: { forbidden: { name: string; comment: string }[] };
  };
  expect(Object.keys(planted)).toEqual(config.default.forbidden.map(({ name }) => name));
  for (const { comment } of config.default.forbidden) expect(comment).toMatch(/^.{20,}\.$/);
});

describe('a planted import is reported by the name of the rule', () => {
  // `reachable` sees only what the edge beside it brings, so the edge itself is left out of the tree.
  const { 'physics-loads-no-package': _, ...direct } = planted;
  let outcome: Outcome;
  beforeAll(() => {
    outcome = cruise([...Object.values(direct).flat(), ...beside]);
  });

  test.each(Object.entries(planted))('%s', (rule, edges) => {
    expect(outcome.status).toBe(1);
    expect(broken(outcome)).toEqual(expect.arrayContaining(edges.map(([from, to]) => `${rule}: ${from} → ${to}`)));
  });
});

test('what is allowed passes', () => {
  const layers = [
    'units',
    'records',
    'sources',
    'facts',
    'checks',
    'fleet',
    'store',
    'charts',
    'pages',
    'steps',
    'cli',
  ];
  const outcome = cruise([
    ...layers.slice(1).map((layer, at): Edge => [`src/${layer}/c.ts`, `src/${layers[at]}/${layer}.ts`]),
    ['src/physics/a.ts', 'src/numerics/a.ts'],
    ['src/numerics/b.ts', 'src/errors.ts'],
    ['src/physics/b.ts', 'src/references.ts'],
    ['src/records/a.ts', 'src/physics/a.ts'],
    ['src/records/b.ts', 'zod'],
    ['src/traces/a.ts', 'src/records/a.ts'],
    ['src/facts/a.ts', 'src/traces/a.ts'],
    ['src/accounts/a.ts', 'src/checks/a.ts'],
    ['src/store/a.ts', 'src/accounts/a.ts'],
    ['src/store/b.ts', '@duckdb/node-api'],
    ['src/store/b.ts', 'apache-arrow'],
    ['src/simulate/a.ts', 'src/records/a.ts'],
    ['src/cli/a.ts', 'src/simulate/a.ts'],
    ['src/cli/a.ts', 'node:fs'],
    ['src/index.ts', 'src/steps/a.ts'],
    ['pipelines/a.ts', 'src/index.ts'],
    ['notebooks/a.ts', 'src/index.ts'],
    ['tests/a.ts', 'src/simulate/a.ts'],
    ['tests/a.ts', 'ajv'],
  ]);
  expect(broken(outcome)).toEqual([]);
  expect(outcome.status).toBe(0);
});

test('an import is seen in every form', () => {
  const forms = {
    value: "import { to } from '../records/a.ts';\nexport const b = to;\n",
    type: "import type { T } from '../records/a.ts';\nexport type B = T;\n",
    side: "import '../records/a.ts';\n",
    export: "export { to } from '../records/a.ts';\n",
    'export-type': "export type { T } from '../records/a.ts';\n",
    'export-all': "export * from '../records/a.ts';\n",
    using: "export async function b() {\n  using to = (await import('../records/a.ts')).to;\n  return to;\n}\n",
    dynamic: "export const b = async () => (await import('../records/a.ts')).to;\n",
  };
  const files = Object.entries(forms).map(([form, text]) => [`src/units/${form}.ts`, text]);
  const outcome = cruise([['src/numerics/a.ts', 'src/errors.ts']], {
    'src/records/a.ts': 'export const to = 1;\nexport type T = number;\n',
    ...Object.fromEntries(files),
  });
  const expected = files.map(([file]) => `units-know-no-meaning: ${file} → src/records/a.ts`);
  expect(broken(outcome).sort()).toEqual(expected.sort());
});

test('a cruise that sees no module, or no import, fails', () => {
  using empty = new PlantedTree().plant({ 'src/readme.md': '' }).link('.ci');
  expect(empty.run('check:borders')).toMatchObject({
    status: 1,
    output: 'borders not checked: 0 modules and 0 imports seen in src\n',
  });
  using lone = new PlantedTree().plant({ 'src/errors.ts': 'export const a = 1;\n' }).link('.ci');
  expect(lone.run('check:borders')).toMatchObject({
    status: 1,
    output: 'borders not checked: 1 modules and 0 imports seen in src\n',
  });
});
