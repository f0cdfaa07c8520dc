import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '../guards/planted-tree.ts';

/** The project's notebooks: Markdown files with cells. */
export const notebookFiles = readdirSync(join(projectRoot, 'notebooks'))
  .filter((name) => name.endsWith('.md'))
  .map((name) => join(projectRoot, 'notebooks', name))
  .filter((path) => /^```ts$/m.test(readFileSync(path, 'utf8').replaceAll(/^````md\n.*?^````$/gms, '')));

/** The text of one by its name. */
export const notebookText = (name: string): string => readFileSync(join(projectRoot, 'notebooks', name), 'utf8');
