/** Words that would run, end a script, or close an attribute if a page took them for markup. */
export const hostile = `<script>alert(1)</script></script><!--"'&\u2028<b onmouseover="alert(2)">`;

/** What the program looks up or reckons with: it comes from no record. */
const own = new Set(
  'outcome phase units month from to startedAt reportedAt day cause by tracedBy group grain kind of noList lastDay'.split(
    ' ',
  ),
);

/** Data with hostile words after every text that may come from a record. */
export function spoilt<Data>(data: Data): Data {
  const spoil = (value: unknown, key: string): unknown => {
    if (typeof value === 'string') return own.has(key) ? value : `${value} ${hostile}`;
    if (Array.isArray(value)) return value.map((each) => spoil(each, key));
    if (value instanceof Set) return new Set([...value].map((each) => spoil(each, key)));
    if (value !== null && typeof value === 'object')
      return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, spoil(each, name)]));
    return value;
  };
  return spoil(data, '') as Data;
}
