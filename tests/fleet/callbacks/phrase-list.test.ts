import { describe, expect, test } from 'vitest';
import { PhraseList, wordsOf } from '../../../src/fleet/callbacks/phrase-list.ts';

const list = new PhraseList(
  ['low .. charge', 'low', 'charge|fill', 'low charge', 'undicht*', 'fuelle*', 'ab'].map(
    (phrase) => [phrase, phrase] as const,
  ),
  (plain) => plain === 'on' || plain === 'the',
);
const found = (text: string) => list.in(wordsOf(text)).map(({ meaning, from, to }) => [meaning, from, to]);

describe('PhraseList', () => {
  test.each([
    ['a gap of small words', 'low on the charge', [['low .. charge', 0, 4]]],
    ['a gap of none', 'low charge', [['low .. charge', 0, 2]]],
    ['four words in a gap', 'low on on on on charge', [['low .. charge', 0, 6]]],
    [
      'five are too many',
      'low on on on on on charge',
      [
        ['low', 0, 1],
        ['charge|fill', 6, 7],
      ],
    ],
    [
      'other words are no gap',
      'low air charge',
      [
        ['low', 0, 1],
        ['charge|fill', 2, 3],
      ],
    ],
    [
      'a comma ends a phrase',
      'low, charge',
      [
        ['low', 0, 1],
        ['charge|fill', 1, 2],
      ],
    ],
    ['a line break does not', 'low\ncharge', [['low .. charge', 0, 2]]],
    ['either word', 'the fill', [['charge|fill', 1, 2]]],
    ['beginnings only where they may go on', 'undichter charger', [['undicht*', 0, 1]]],
    [
      'umlauts and accents',
      'FÜLLEN Fuellen fullen filler',
      [
        ['fuelle*', 0, 1],
        ['fuelle*', 1, 2],
        ['fuelle*', 2, 3],
      ],
    ],
    ['nothing', '', []],
  ])('%s', (_, text, phrases) => {
    expect(found(text)).toEqual(phrases);
  });
});

describe('wordsOf', () => {
  test('tells words, where they stand, and clauses', () => {
    expect(wordsOf('Zwei, 0.4kg – l’été!')).toEqual([
      { plain: 'zwei', start: 0, end: 4, clause: 0 },
      { plain: '0.4', start: 6, end: 9, clause: 1 },
      { plain: 'kg', start: 9, end: 11, clause: 1 },
      { plain: 'l', start: 14, end: 15, clause: 1 },
      { plain: 'ete', start: 16, end: 19, clause: 1 },
    ]);
  });
});
