/**
 * The beginning of a JSON document as a whole document: cut after the last element that is whole, and closed.
 *
 * @param text the first part of a document; what is whole comes back as it is
 * @returns undefined where the text is no beginning of a JSON document
 * @example closedJson('{"rows":[{"a":1},{"a":') // '{"rows":[{"a":1}]}'
 */
export function closedJson(text: string): string | undefined {
  if (parses(text)) return text;
  const cut = lastWhole(text);
  if (cut === undefined) return undefined;
  const closed = text.slice(0, cut.end) + cut.open.toReversed().join('');
  return parses(closed) ? closed : undefined;
}

/** Where the last whole element of a list ends, else the last whole member of an object, and what is open there. */
function lastWhole(text: string): { end: number; open: readonly string[] } | undefined {
  const open: string[] = [];
  let element: { end: number; open: readonly string[] } | undefined;
  let memberEnd: number | undefined;
  let inString = false;
  for (let index = 0; index < text.length; index += 1) {
    const char = text[index];
    if (inString) {
      if (char === '\\') index += 1;
      else if (char === '"') inString = false;
    } else if (char === '"') inString = true;
    else if (char === '{' || char === '[') open.push(char === '{' ? '}' : ']');
    else if (char === '}' || char === ']') {
      if (open.pop() !== char) return undefined;
      if (open.at(-1) === ']') element = { end: index + 1, open: [...open] };
    } else if (char === ',' && open.length === 1) memberEnd = index;
  }
  if (element !== undefined) return element;
  return memberEnd === undefined ? undefined : { end: memberEnd, open: [text.trimStart().startsWith('[') ? ']' : '}'] };
}

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
