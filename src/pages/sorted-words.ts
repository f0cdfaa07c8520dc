/** Words as a list to choose from has them: each once, in order, without the empty one. */
export function sortedWords(words: readonly string[]): string[] {
  return [...new Set(words)].filter((word) => word !== '').sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
}
