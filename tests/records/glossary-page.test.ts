import { z } from 'zod';
import { expect, test } from 'vitest';
import { choice, flag, identifier, overQuantity } from '../../src/records/column.ts';
import { glossary } from '../../src/records/glossary.ts';
import { glossaryPage } from '../../src/records/glossary-page.ts';
import { table } from '../../src/records/table.ts';

const hoses = table('hoses', 'hose', ['hose_id', 'end'], {
  hose_id: identifier('The hose'),
  end: choice(['left', 'right'], 'Which | end'),
  worn: flag('Whether worn').optional(),
  vacuum_pa: overQuantity('Pa', 'Pressure', -0.5, 200000).optional(),
});

test('the page shows every word and every column with unit, kind, choices and range', () => {
  const page = glossaryPage([{ word: 'hose', meaning: 'A tube.' }], [hoses], []);
  expect(page).toContain('| **hose** | A tube. |');
  expect(page).toContain('### `hoses`\n\nOne row per hose. Told apart by `hose_id`, `end`.');
  expect(page).toContain('| `hose_id` |  | text | yes |  | The hose |');
  expect(page).toContain('| `end` |  | choice | yes | left · right | Which \\| end |');
  expect(page).toContain('| `worn` |  | flag |  |  | Whether worn |');
  expect(page).toContain('| `vacuum_pa` | Pa | number |  | −0.5 … 200 000, or the word `over` | Pressure |');
});

test('a column without metadata is refused, not shown half', () => {
  const bare = table('bare', 'row', [], { a: z.string() });
  expect(() => glossaryPage([], [bare], [])).toThrow('column without metadata');
});

test('no word is explained twice, and every outcome is named', () => {
  const words = glossary.map(({ word }) => word);
  expect(new Set(words).size).toBe(words.length);
  const outcome = glossary.find(({ word }) => word === 'outcome')?.meaning;
  for (const word of ['pass', 'suspect', 'fail', 'not-evaluated', 'missing']) expect(outcome).toContain(word);
});
