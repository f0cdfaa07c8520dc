import type { DraftedFile } from '../steps/draft-map.ts';
import type { MapTrial } from '../steps/tried-map.ts';
import { visibleLines, visibleText } from '../units/visible-text.ts';
import { countOf, grouped } from './ingest-text.ts';
import { shellWord } from './shell-word.ts';
import { textTable } from './text-table.ts';
import { textWidth, wrappedText } from './wrapped-text.ts';

/**
 * A drafted map for people: what the file is, its first rows as they would come in, what to look at, and the map itself.
 *
 * @param path the file as it was named
 * @param out where the map was written, if it was
 */
export function mapText(drafted: DraftedFile, path: string, out: string | undefined): string {
  const { file, content, inPart, preview, unsure, leftOut, map } = drafted;
  const part = inPart ? ' Only its first part was looked at; what follows may differ.' : '';
  return [
    ...wrappedText(visibleText(`${file}: ${content}.${part}`)),
    ...preview.flatMap((trial) => ['', ...trialText(trial)]),
    '',
    ...unsureText(unsure),
    ...leftOutText(leftOut),
    '',
    ...nextText(path, out),
    ...(out === undefined ? ['', visibleLines(JSON.stringify(map, null, 2))] : []),
  ].join('\n');
}

function trialText({ table, columns, rows, tried, refused, reasons }: MapTrial): string[] {
  const filled = columns.filter((name) => rows.some((row) => row[name] !== undefined));
  const lines = [`${table}: the first rows as they would come in`, ''];
  if (rows.length === 0) lines.push('  none comes in as the map stands');
  else
    for (const some of fitting(filled, rows))
      lines.push(
        textTable(
          some,
          rows.map((row) => some.map((name) => cellOf(row[name]))),
        ).replaceAll(/^/gm, '  '),
        '',
      );
  if (tried === 0) lines.push('  no row was found');
  else
    lines.push(
      `  ${countOf(tried, 'row')} tried: ${refused === 0 ? 'none would be refused' : `${grouped(refused)} would be refused:`}`,
    );
  for (const { reason, count, line } of reasons)
    lines.push(...hanging(`${grouped(count)} × `, visibleText(`${reason} (first on line ${line})`), '    '));
  return lines;
}

/** The columns in as many tables side by side as the terminal's width asks for. */
function fitting(columns: readonly string[], rows: MapTrial['rows']): string[][] {
  const tables: string[][] = [[]];
  let used = 2;
  for (const name of columns) {
    const width = Math.max(name.length, ...rows.map((row) => cellOf(row[name]).length)) + 2;
    if (used + width > textWidth() && (tables.at(-1)?.length ?? 0) > 0) {
      tables.push([]);
      used = 2;
    }
    tables.at(-1)?.push(name);
    used += width;
  }
  return tables;
}

const longestCell = 40;

function cellOf(value: unknown): string {
  if (value === undefined || value === null) return '';
  const text =
    typeof value === 'number'
      ? String(Number(value.toPrecision(7)))
      : visibleText(typeof value === 'string' ? value : JSON.stringify(value));
  return text.length > longestCell ? `${text.slice(0, longestCell - 1)}…` : text;
}

function unsureText(unsure: DraftedFile['unsure']): string[] {
  if (unsure.length === 0) return ['Nothing in the file left a doubt; look at the rows above all the same.'];
  const heading = `Unsure of ${countOf(unsure.length, 'thing')}; look at each, and change it in the map where it says:`;
  return [
    ...wrappedText(heading),
    ...unsure.flatMap(({ where, text }, index) => hanging(`${index + 1}. `, visibleText(`${text} [${where}]`), '  ')),
  ];
}

function leftOutText(leftOut: DraftedFile['leftOut']): string[] {
  if (leftOut.length === 0) return ['', 'Left out: nothing.'];
  return ['', 'Left out:', ...leftOut.flatMap(({ what, why }) => hanging('- ', visibleText(`${what}: ${why}`), '  '))];
}

function nextText(path: string, out: string | undefined): string[] {
  if (out === undefined) return [`Write it with: dryhold map ${shellWord(path)} --out map.json`];
  return [
    `The map is written to ${visibleText(out)}. Mend what was unsure, then take the file in with:`,
    `  dryhold ingest ${shellWord(path)} --map ${shellWord(out)}`,
  ];
}

/** A text whose further lines stand under its first word. */
function hanging(mark: string, text: string, margin: string): string[] {
  const [first = '', ...rest] = wrappedText(text, margin + ' '.repeat(mark.length));
  return [`${margin}${mark}${first.slice(margin.length + mark.length)}`, ...rest];
}
