import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const folder = new URL('../../src/units/', import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith('.ts'));
const names: Record<string, unknown> = Object.assign(
  {},
  ...(await Promise.all(files.map((file) => import(new URL(file, folder).href)))),
);
const examples = files.flatMap((file) =>
  [...readFileSync(new URL(file, folder), 'utf8').matchAll(/@example (.+) \/\/ (.+)\n/g)].map(
    ([, expression, printed]): [string, string, string] => [file, expression, printed],
  ),
);

const valueOf = (expression: string): unknown =>
  new Function(...Object.keys(names), `return (${expression})`)(...Object.values(names));

/** The same with every number to seven figures. */
function rounded(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value), (_, part: unknown) =>
    typeof part === 'number' ? Number(part.toPrecision(7)) : part,
  );
}

test('every file has an example', () => {
  expect([...new Set(examples.map(([file]) => file))]).toEqual(files);
});

test.each(examples)('%s: %s gives %s', (_, expression, printed) => {
  expect(rounded(valueOf(expression))).toEqual(rounded(valueOf(printed)));
});
