import { expect, test } from 'vitest';
import { mergeLines } from '../../src/cli/merge-text.ts';

const counts = { results: 2, judged: 0, upToDate: 0, changed: 0, apart: [], unknown: 0, unjudged: 0, policyId: 'own' };
const first = (judged: number) => `${judged} jobs taken from 2 folders of results, by policy own`;

test.each([
  ['all of it', { judged: 3, upToDate: 3 }, [first(3)]],
  ['the same again', { upToDate: 3 }, [first(0), 'the store has what was found of all 3 jobs already']],
  [
    'some again, some changed and judged since',
    { judged: 2, upToDate: 3, changed: 2, apart: ['judged/2'] },
    [
      first(2),
      'the store has what was found of 1 job already',
      '2 jobs changed since their shard was written, and are left: what was found of them is out of date',
      'judged/2: none of its jobs is as the store has it; if they did not change, it is of another store',
    ],
  ],
  [
    'jobs that nobody judged',
    { judged: 3, upToDate: 3, unjudged: 4 },
    [
      first(3),
      "4 jobs of the store are not judged yet: judge them with: dryhold judge --store 's t' --policy own.json",
    ],
  ],
])('what a merging says of %s', (_, own, lines) => {
  expect(mergeLines({ ...counts, ...own }, { store: 's t', policy: 'own.json' })).toEqual(lines);
});
