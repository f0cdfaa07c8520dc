/**
 * The first sentences of a text, as many as fit into a length, one at least.
 *
 * @example leadSentences('It held. It was short. Nobody knows why.', 25) // 'It held. It was short.'
 */
export function leadSentences(text: string, most: number): string {
  const [first = '', ...rest] = text.split(/(?<=[.!?]) (?=[A-Z\d])/);
  let lead = first;
  for (const sentence of rest) {
    if (lead.length + 1 + sentence.length > most) break;
    lead = `${lead} ${sentence}`;
  }
  return lead;
}
