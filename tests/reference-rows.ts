import { readFileSync } from 'node:fs';

/** The rows of `tests/references/<key>/values.csv`, or of another file there, by column, as they are written. */
export function referenceCells(key: string, file: string = 'values.csv'): Record<string, string>[] {
  const text = readFileSync(new URL(`references/${key}/${file}`, import.meta.url), 'utf8');
  const [header = '', ...lines] = text.trim().split('\n');
  const names = header.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(names.map((name, index) => [name, cells[index]]));
  });
}

/** The same rows as numbers; what does not read as a number is NaN. */
export function referenceRows(key: string, file?: string): Record<string, number>[] {
  return referenceCells(key, file).map((row) =>
    Object.fromEntries(Object.entries(row).map(([name, cell]) => [name, Number(cell)])),
  );
}
