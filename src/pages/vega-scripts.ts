import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/**
 * The classic scripts that draw compiled charts in a page, to be inlined: vega (global `vega`), its expression
 * interpreter, and the runner.
 *
 * The interpreter comes as a module only; its one import and one export are turned into reads and writes of globals,
 * since inline modules cannot import each other offline.
 *
 * @returns script texts in the order to run them; none holds an end tag of a script element
 * @throws Error where an installed package is not of the expected form: a bug
 */
export function vegaScripts(): readonly string[] {
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
  const scripts = [vega, `(() => {\n${body}\n})();`, runner];
  if (scripts.some((script) => /<\/script|<!--/i.test(script))) throw new Error('a script cannot be inlined');
  return scripts;
}

/** The folder of a package's entry point, wherever it is installed. */
const folderOf = (name: string) => dirname(createRequire(import.meta.url).resolve(name));

/**
 * Draws every chart of the page: those in view first, then top to bottom, leaving the browser a turn in between; all
 * at once before printing. A chart that cannot be drawn is replaced by a sentence; the tables hold the same figures.
 */
const runner = `(async () => {
  'use strict';
  const charts = JSON.parse(document.getElementById('charts').textContent);
  const pending = [...document.querySelectorAll('[data-chart]')];
  const draw = (element) => {
    try {
      const runtime = vega.parse(charts[element.dataset.chart], null, { ast: true });
      new vega.View(runtime, { expr: vegaInterpreter, renderer: 'svg', container: element, hover: false }).run();
      element.dataset.drawn = 'yes';
    } catch (error) {
      element.textContent = 'This chart could not be drawn.';
      element.dataset.drawn = 'no';
      console.error(error);
    }
  };
  const inView = (element) => {
    const { top, bottom } = element.getBoundingClientRect();
    return bottom > 0 && top < innerHeight;
  };
  addEventListener('beforeprint', () => pending.splice(0).forEach(draw));
  while (pending.length > 0) {
    draw(...pending.splice(Math.max(0, pending.findIndex(inView)), 1));
    await new Promise((resolve) => setTimeout(resolve));
  }
  document.documentElement.dataset.charts = 'drawn';
})();`;
