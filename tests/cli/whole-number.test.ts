import { expect, test } from 'vitest';
import { wholeNumber } from '../../src/cli/whole-number.ts';

test.each([
  ['1', 1],
  ['10000', 10_000],
  ['1e3', 1000],
  ['9007199254740991', 9_007_199_254_740_991],
])('%s is a whole number', (text, value) => expect(wholeNumber(text)).toBe(value));

test.each(['0', '-1', '1.5', '', 'x', 'Infinity'])('"%s" is none', (text) =>
  expect(() => wholeNumber(text)).toThrow(`a whole number from 1 is wanted, received "${text}"`),
);

test.each(['9007199254740992', '1e30'])('%s is too large to be told from the next', (text) =>
  expect(() => wholeNumber(text)).toThrow(`a whole number of at most 9007199254740991 is wanted, received "${text}"`),
);
