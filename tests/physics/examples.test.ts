import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as physics from '../../src/physics/index.ts';

const folder = new URL('../../src/physics/', import.meta.url);
const mine = [
  'copper-tube.ts',
  'effective-pumping-speed.ts',
  'leak-from-rise.ts',
  'molar-leak-from-rise.ts',
  'pull-down-time.ts',
  'standard-atmosphere.ts',
  'tube-conductance.ts',
  'water-vapour-pressure.ts',
];

test('every file is there', () => {
  expect(readdirSync(folder)).toEqual(expect.arrayContaining(mine));
});

test.each(mine)('the example of %s gives what it says', (file) => {
  const source = readFileSync(new URL(file, folder), 'utf8');
  const [, expression = '', printed = ''] = /@example\n \* (.+) \/\/ ([\d.e-]+)\n/.exec(source) ?? [];
  const names = Object.keys(physics);
  const result: unknown = new Function(...names, `return ${expression}`)(...Object.values(physics));
  const digits = printed.replace(/e.*$/, '').replace('.', '').replace(/^0+/, '').length;
  expect(Number((result as number).toPrecision(digits))).toBe(Number(printed));
});
