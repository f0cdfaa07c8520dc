import { expect, test } from 'vitest';
import { DryholdError } from '../src/errors.ts';
import {
  differencesBy,
  draftFor,
  type Edit,
  type EditedDraft,
  editedDraftsOf,
  editedMap,
  mappedSamples,
} from './sample-drafts.ts';
import { expectedOf, mapsOf } from './samples.ts';

test('every map of every sample has a draft in its stead, and only those have', () => {
  expect(mappedSamples.length).toBeGreaterThanOrEqual(14);
  for (const sample of mappedSamples) {
    const drafted = editedDraftsOf(sample).map((draft) => draft.instead_of);
    expect({ sample, drafted: drafted.toSorted() }).toEqual({ sample, drafted: mapsOf(expectedOf(sample)).toSorted() });
  }
});

test('an edit changes one place: it brings no list of columns, parts or head values, and no entry with columns in it', () => {
  for (const sample of mappedSamples)
    for (const { edits } of editedDraftsOf(sample))
      for (const { op, path, value } of edits) {
        expect({ sample, op }).toEqual({ sample, op: expect.stringMatching(/^(?:add|remove|replace)$/) });
        const isWhole = /^(?:|\/(?:file|parts|head|rows)|\/rows\/\d+\/columns)$/.test(path);
        expect({ sample, path, isWhole }).toEqual({ sample, path, isWhole: false });
        const isList = op !== 'remove' && /^\/(?:null|over)_words$/.test(path);
        expect({ sample, path, isList }).toEqual({ sample, path, isList: false });
        const hasColumns = typeof value === 'object' && value !== null && Object.hasOwn(value, 'columns');
        expect({ sample, path, hasColumns }).toEqual({ sample, path, hasColumns: false });
      }
});

test.each(mappedSamples)(
  '%s: the edited drafts give its rows, and no edit can be left out',
  async (sample) => {
    const drafts = editedDraftsOf(sample);
    const drafted = await Promise.all(drafts.map((draft) => draftFor(sample, draft)));
    const mapsWithout = (left?: Edit) =>
      new Map(
        drafts.map(({ instead_of, edits }: EditedDraft, at) => [
          instead_of,
          editedMap(
            drafted[at],
            edits.filter((edit) => edit !== left),
          ),
        ]),
      );
    expect(await differencesBy(sample, mapsWithout())).toEqual([]);
    const needless: string[] = [];
    for (const edit of drafts.flatMap(({ edits }) => edits))
      if (!(await isWrong(sample, () => mapsWithout(edit)))) needless.push(edit.path);
    expect(needless).toEqual([]);
  },
  180_000,
);

/** Whether maps give other rows than they must, or are none that would be taken. */
async function isWrong(sample: string, maps: () => ReadonlyMap<string, unknown>): Promise<boolean> {
  try {
    return (await differencesBy(sample, maps())).length > 0;
  } catch (error) {
    if (error instanceof DryholdError) return true;
    throw error;
  }
}
