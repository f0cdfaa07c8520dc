/** Ids with what each is called; with its id where another of them is called the same. */
export function uniqueLabels(ids: readonly string[], nameOf: (id: string) => string): ReadonlyMap<string, string> {
  const named = Map.groupBy(ids, nameOf);
  return new Map(
    ids.map((id) => [id, (named.get(nameOf(id)) ?? []).length > 1 ? `${nameOf(id)} (${id})` : nameOf(id)]),
  );
}
