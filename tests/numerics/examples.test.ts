import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const folder = new URL('../../src/', import.meta.url);
const files = ['numerics', 'fleet', 'fleet/statistics', 'accounts', 'accounts/rules']
  .flatMap((area) => readdirSync(new URL(area, folder)).map((file) => `${area}/${file}`))
  .filter((file) => file.endsWith('.ts'))
  .map((file) => ({ file, source: readFileSync(new URL(file, folder), 'utf8') }));
const names: Record<string, unknown> = Object.assign(
  {},
  ...(await Promise.all(files.map(({ file }) => import(new URL(file, folder).href)))),
);

/** Every example: what comes before its last line, and that line's expression and value. */
const examples = files.flatMap(({ file, source }) =>
  [...source.matchAll(/@example\s([\s\S]*?)\n? \*\//g)].map(([, text]) => {
    const lines = text
      .replaceAll(/^ \* ?/gm, '')
      .split('\n')
      .filter((line) => line.trim() !== '');
    const [, expression, printed] = /^(.+) \/\/ (.+)$/.exec(lines.at(-1) ?? '') ?? [];
    return { file, statements: lines.slice(0, -1).join('\n'), expression, printed };
  }),
);

const valueOf = (expression: string, statements: string = ''): unknown =>
  new Function(...Object.keys(names), `${statements}\nreturn (${expression})`)(...Object.values(names));

/** The same with every number to seven figures. */
function rounded(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value), (_, part: unknown) =>
    typeof part === 'number' ? Number(part.toPrecision(7)) : part,
  );
}

/** Of what puts a fleet or accounts together, an example would be as long as its test. */
const mayLack = /^(fleet|accounts)\/[^/]+$/;

test('every function and class has an example in its docstring', () => {
  const without = files
    .filter(({ file }) => !mayLack.test(file))
    .flatMap(({ source }) => {
      const exported = [...source.matchAll(/^export (?:function|class) (\w+)/gm)];
      return exported.filter(({ index }) => {
        const docstring = source.slice(source.lastIndexOf('/**', index), index);
        return !(docstring.includes('@example') && docstring.trimEnd().endsWith('*/'));
      });
    });
  expect(Object.values(names).filter((value) => typeof value === 'function').length).toBeGreaterThan(10);
  expect(without.map(([, name]) => name)).toEqual([]);
});

test('every example ends in `expression // value`', () => {
  expect(examples.filter(({ expression }) => expression === undefined)).toEqual([]);
});

test.each(examples)('$file: $expression gives $printed', ({ statements, expression, printed }) => {
  expect(rounded(valueOf(expression, statements))).toEqual(rounded(valueOf(printed)));
});
