import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/**
 * The classic scripts by which a page draws compiled charts, to be inlined: vega (global `vega`) and its expression
 * interpreter (global `vegaInterpreter`).
 *
 * The interpreter comes as a module only; its one import and one export are turned into reads and writes of globals,
 * since inline modules cannot import each other offline.
 *
 * @returns script texts in the order to run them; none holds an end tag of a script element
 * @throws Error where an installed package is not of the expected form: a bug
 */
export function vegaScripts(): readonly string[] {
  read ??= readScripts();
  return read;
}

/** Read once: a report has many pages. */
let read: readonly string[] | undefined;

function readScripts(): readonly string[] {
  const vega = readFileSync(join(folderOf('vega'), 'vega.min.js'), 'utf8').replace(
    /\n?\/\/# sourceMappingURL=.*\s*$/,
    '',
  );
  const module = readFileSync(join(folderOf('vega-interpreter'), 'vega-interpreter.js'), 'utf8');
  const body = module
    .replace(/^import \{([^}]*)\} from 'vega-util';$/m, 'const {$1} = vega;')
    .replace(/^export \{ expression as expressionInterpreter \};$/m, 'globalThis.vegaInterpreter = expression;')
    .replace(/^\/\/# sourceMappingURL=.*$/m, '');
  if (/^(import|export)\b/m.test(body) || !body.includes('globalThis.vegaInterpreter')) {
    throw new Error('vega-interpreter is not of the form that can be inlined');
  }
  const scripts = [vega, `(() => {\n${body}\n})();`];
  if (scripts.some((script) => /<\/script|<!--/i.test(script))) throw new Error('a script cannot be inlined');
  return scripts;
}

/** The folder of a package's entry point, wherever it is installed. */
const folderOf = (name: string) => dirname(createRequire(import.meta.url).resolve(name));
