import { type Dirent, readdirSync, readFileSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';

const skipped = /^(node_modules|dist|coverage|\.git|dryhold-.*)$/;
const texts = new Set([
  '.ts',
  '.mjs',
  '.js',
  '.json',
  '.md',
  '.sql',
  '.csv',
  '.txt',
  '.yml',
  '.css',
  '.html',
  '.svg',
  '',
]);
const code = new Set(['.ts', '.mjs', '.js', '.sql']);
const named = /^(src|tests|bin|pipelines|notebooks)\//;
/** Upper case where the world wants it. */
const fixedNames = /^(README\.md|\.gitkeep)$/;

// Put together here, so that this file does not hold what it forbids.
const machinePath = new RegExp(`(?<![\\w.\\])}*])/(${['work', 'tmp', 'home', 'root', 'Users'].join('|')})/`);
const registryHost = new RegExp(
  `registry\\.(${['npmjs', 'yarnpkg'].join('|')})|"resolved": "${'http'}|^registry *=`,
  'm',
);

/** What in the tree under `root` breaks the rules of layout, one line each: `path: fault`. Looks at what Git would keep. */
export function treeFaults(root: string): string[] {
  return filesUnder(root)
    .flatMap((path) => [...nameFaults(path), ...textFaults(path, join(root, path))].map((fault) => `${path}: ${fault}`))
    .sort((a, b) => a.localeCompare(b));
}

/** Every file but what .gitignore leaves out, by its path from the root with forward slashes. */
function filesUnder(root: string): string[] {
  const walk = (folder: string): Dirent[] =>
    readdirSync(folder, { withFileTypes: true })
      .filter(({ name }) => !skipped.test(name))
      .flatMap((entry) => (entry.isDirectory() ? walk(join(folder, entry.name)) : [entry]));
  return walk(root).map(({ parentPath, name }) => relative(root, join(parentPath, name)).split(sep).join('/'));
}

function nameFaults(path: string): string[] {
  if (!named.test(path)) return [];
  const parts = path.split('/').filter((part) => !fixedNames.test(part));
  const stem = parts.at(-1)?.split('.')[0] ?? '';
  return [
    ...(parts.every((part) => /^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+)*$/.test(part)) ? [] : ['not kebab-case']),
    ...(/^(utils?|helpers?|common|misc|types)$/.test(stem) ? ['named after nothing it holds'] : []),
    ...(/^src\/.*\/.*\/.*\//.test(path) ? ['more than three levels of folders'] : []),
  ];
}

function textFaults(path: string, file: string): string[] {
  const extension = extname(path);
  if (!texts.has(extension)) return [];
  const text = readFileSync(file, 'utf8');
  const lines = text.split('\n').length - 1;
  return [
    ...(code.has(extension) && lines > 300 && !isDataTable(text) ? [`${lines} lines, more than 300`] : []),
    ...(machinePath.test(text) ? ['names a path of some machine'] : []),
    ...(registryHost.test(text) ? ['names a package registry'] : []),
  ];
}

/** True of a module that holds values alone: no function of any form, and no statement. */
function isDataTable(text: string): boolean {
  return !/=>|\bfunction\b|\bclass\b|^\s*(test|describe|if|for|while)\b|\bselect\b/im.test(text);
}
