import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PlantedTree, projectRoot } from './planted-tree.ts';

// Installs the packed package in an empty folder, as anybody would, from whatever registry this machine's npm uses.
const patience = 300_000;

/** This process's environment without what npm adds to that of its scripts: the machine's own Node comes first again. */
const bareEnvironment = Object.fromEntries(
  Object.entries({
    ...process.env,
    PATH: (process.env['PATH'] ?? '')
      .split(delimiter)
      .filter((folder) => !/node_modules|node-gyp-bin/.test(folder))
      .join(delimiter),
    npm_config_update_notifier: 'false',
  }).filter(
    ([name]) =>
      !/^(npm_(package|lifecycle)_|npm_(command|execpath|node_execpath|config_local_prefix)$|NODE(?!_EXTRA_CA_CERTS$)|VITEST|INIT_CWD$)/.test(
        name,
      ),
  ),
);

function run(cwd: string, command: string, ...args: string[]): string {
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, encoding: 'utf8', env: bareEnvironment });
  if (status !== 0) throw new Error(`${command} ${args.join(' ')} ended with ${status}\n${stdout}${stderr}`);
  return stdout;
}

/** Packs a copy of the project, so that no `dist` appears in the tree. Returns the path of the archive. */
function pack(into: string): string {
  using copy = new PlantedTree();
  copy.copy(
    ...readdirSync(projectRoot).filter((name) => !/^(node_modules|\.git|dist|coverage|dryhold-.*)$/.test(name)),
  );
  copy.link('node_modules');
  run(copy.root, 'npm', 'pack', '--pack-destination', into);
  return join(into, readdirSync(into).find((name) => name.endsWith('.tgz')) ?? 'no archive');
}

const home = new PlantedTree();
const installed = join(home.root, 'node_modules', 'dryhold');

beforeAll(() => {
  run(home.root, 'npm', 'install', '--prefer-offline', '--no-audit', '--no-fund', pack(home.root));
}, patience);

afterAll(() => home[Symbol.dispose]());

test(
  'the command answers, started by the machine’s own Node',
  () => {
    expect(run(home.root, 'npx', '--no-install', 'dryhold', '--help')).toMatch(/usage: dryhold/i);
  },
  patience,
);

test('the package holds emitted code with its types and queries, and neither sources nor tests', () => {
  const files = readdirSync(installed, { recursive: true, encoding: 'utf8' });
  for (const name of readdirSync(join(projectRoot, 'src', 'store', 'queries')))
    expect(existsSync(join(installed, 'dist', 'store', 'queries', name))).toBe(true);
  // Pipelines are there to be copied, and so are sources.
  const built = files.filter((file) => !file.startsWith('pipelines'));
  expect(built.filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'))).toEqual([]);
  expect(files.filter((file) => /(^|[\\/])(src|tests|node_modules)([\\/]|$)|\.test\./.test(file))).toEqual([]);
  expect(files).toEqual(expect.arrayContaining(['LICENSE', 'CHANGELOG.md', 'GLOSSARY.md', 'records.schema.json']));
});

/** How many names a module exports, as seen from a folder. */
const exportsOf = (folder: string, specifier: string) =>
  Number(run(folder, process.execPath, '-e', `import('${specifier}').then((m) => console.log(Object.keys(m).length))`));

test('the entry points load', () => {
  expect(exportsOf(home.root, 'dryhold')).toBeGreaterThan(0);
  expect(exportsOf(home.root, 'dryhold/physics')).toBeGreaterThan(0);
});

test('a notebook runs from where the package lies, though Node takes no types off there', () => {
  const cell = "import { median } from 'dryhold';\nconst n: number = median([1, 2, 3]);";
  home.plant({
    'node_modules/dryhold/notebooks/planted.md': `# Planted\n\n\`\`\`ts\n${cell}\nconsole.log(n);\n\`\`\`\n`,
  });
  const planted = join('node_modules', 'dryhold', 'notebooks', 'planted.md');
  run(home.root, 'npx', '--no-install', 'dryhold', 'notebook', planted, '--out', 'pages');
  expect(existsSync(join(home.root, 'pages', 'planted.html'))).toBe(true);
});

test('physics loads where no other package is installed', () => {
  using lone = new PlantedTree();
  cpSync(join(installed, 'dist'), join(lone.root, 'dist'), { recursive: true });
  lone.plant({ 'package.json': '{ "type": "module" }' });
  expect(exportsOf(lone.root, './dist/physics/index.js')).toBeGreaterThan(0);
  expect(() => exportsOf(lone.root, './dist/records/tables.js')).toThrow('zod');
});
