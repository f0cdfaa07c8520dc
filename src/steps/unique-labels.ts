import { labelText } from './label-text.ts';

/** Ids with what each is called; with its id where another of them is called the same, or the charts' own tables know the word. */
export function uniqueLabels(ids: readonly string[], nameOf: (id: string) => string): ReadonlyMap<string, string> {
  const called = (id: string): string => labelText(nameOf(id));
  const named = Map.groupBy(ids, called);
  const isTaken = (name: string): boolean =>
    name === '' || name in Object.prototype || (named.get(name) ?? []).length > 1;
  return new Map(ids.map((id) => [id, isTaken(called(id)) ? `${called(id)} (${labelText(id)})`.trim() : called(id)]));
}
