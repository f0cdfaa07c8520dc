import { readFileSync } from 'node:fs';

/** The rows of `tests/references/<key>/values.csv`, by column; what reads as a number is one. */
export function referenceRows(key: string): Record<string, number>[] {
  const text = readFileSync(new URL(`references/${key}/values.csv`, import.meta.url), 'utf8');
  const [header = '', ...lines] = text.trim().split('\n');
  const names = header.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(names.map((name, index) => [name, Number(cells[index])]));
  });
}
