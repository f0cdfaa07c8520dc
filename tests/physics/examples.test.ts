import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as physics from '../../src/physics/index.ts';

const folder = new URL('../../src/physics/', import.meta.url);
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.ts') && path !== 'index.ts')
  .map((path) => ({ path, source: readFileSync(new URL(path, folder), 'utf8') }));
/** Expression and value of every example; long ones go over several lines. */
const examples = files.flatMap(({ path, source }) =>
  [...source.matchAll(/@example\n((?: \* .+\n)+)/g)].flatMap(([, lines]): [string, string, string][] => {
    const oneLine = lines.replaceAll(/^ \* */gm, '').replaceAll('\n', ' ');
    const [, expression, printed] = /^(.+) \/\/ (-?[\d.e-]+) $/.exec(oneLine) ?? [];
    return expression === undefined ? [] : [[path, expression, printed]];
  }),
);

test('every public function has an example, beside its definition', () => {
  const names = Object.entries(physics)
    .filter(([, value]) => typeof value === 'function' && !String(value).startsWith('class'))
    .map(([name]) => name);
  const without = names.filter(
    (name) =>
      !examples.some(([path]) => files.find((file) => file.path === path)?.source.includes(`export function ${name}(`)),
  );
  expect(names.length).toBeGreaterThan(20);
  expect(without).toEqual([]);
});

test.each(examples)('%s: %s gives %s', (_, expression, printed) => {
  const result: unknown = new Function(...Object.keys(physics), `return ${expression}`)(...Object.values(physics));
  const digits = printed.replace(/e.*$/, '').replace(/[-.]/g, '').replace(/^0+/, '').length;
  expect(Number((result as number).toPrecision(digits))).toBe(Number(printed));
});
