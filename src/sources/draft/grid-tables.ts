import type { Doubt, DraftColumn, GridLine, LeftOut, WrittenLayout } from './draft.ts';
import { withoutUnit } from '../map-columns.ts';
import { columnView } from './column-view.ts';
import { findRuns, type Run } from './find-runs.ts';
import type { GridKind, GridTable } from './grid-kind.ts';
import { looksLikeReadings } from './looks-like-readings.ts';
import { mixedTable } from './mixed-lines.ts';
import { recordTableOf } from './record-table.ts';
import { splitLines } from './split-lines.ts';

/** So many rows are looked at. */
const mostRows = 1000;

/** The tables that stand in lines, in their order, and the lines that are no part of them. */
export function gridTables(lines: readonly GridLine[], kind: GridKind): { tables: GridTable[]; preamble: GridLine[] } {
  const runs = findRuns(lines);
  const [main] = runs.length > 0 ? runs : wordList(lines);
  if (main === undefined) return { tables: [], preamble: [] };
  const mixed = main.header === undefined ? mixedTable(lines, main, kind) : undefined;
  if (mixed !== undefined) return { tables: [mixed], preamble: [] };
  const further = runs.filter((run) => run !== main && isTable(lines, run, main));
  const chosen = [main, ...further].toSorted((a, b) => a.first - b.first);
  const tables = chosen.map((run, index) => gridTable(lines, run, chosen, index, kind));
  const [heaviest] = tables.toSorted((a, b) => b.weight - a.weight);
  const others = runs.filter((run) => !chosen.includes(run) && isLeftTable(lines, run, main));
  Object.assign(heaviest, { leftOut: others.map((run) => leftTable(lines, run)) });
  const inTable = (at: number) => [...chosen, ...others].some((run) => at >= (run.header ?? run.first) && at < run.end);
  return { tables, preamble: lines.filter((_, at) => !inTable(at)) };
}

/** A list that holds words only: its first line names the columns. */
function wordList(lines: readonly GridLine[]): Run[] {
  const first = lines.findIndex(({ cells }) => cells.filter((cell) => cell !== '').length >= 2);
  if (first < 0) return [];
  const width = lines[first].cells.length;
  const end = lines.findLastIndex(({ cells }) => cells.length === width) + 1;
  return end > first + 1 ? [{ first: first + 1, end, width, header: first, between: 0, weight: 1 }] : [];
}

/** Whether another run is a table of its own: its columns have names that are known, and other ones than the main table's. */
function isTable(lines: readonly GridLine[], run: Run, main: Run): boolean {
  if (run.header === undefined || run.header === main.header) return false;
  const names = lines[run.header].cells;
  if (main.header !== undefined && names.join('\0') === lines[main.header].cells.join('\0')) return false;
  const views = names.map((name, index) =>
    columnView({ ref: index + 1, name, values: valuesOf(lines, run, index).slice(0, 50) }, { decimal: '.' }),
  );
  return recordTableOf(views) !== undefined || looksLikeReadings(views, { decimal: '.' });
}

/** Whether lines that are not drafted look like a table all the same. */
function isLeftTable(lines: readonly GridLine[], run: Run, main: Run): boolean {
  if (run.header === undefined || run.end - run.first < 2) return false;
  const isAgain = main.header !== undefined && lines[run.header].text === lines[main.header].text;
  return !isAgain && run.header !== main.header && run.width > 2;
}

function leftTable(lines: readonly GridLine[], run: Run): LeftOut {
  const [from, to] = [lines[run.header ?? run.first].line, lines[run.end - 1].line];
  const names = lines[run.header ?? run.first].cells.filter((cell) => cell !== '').join(', ');
  return {
    what: `lines ${from} to ${to} (${names})`,
    why: 'they look like a table of their own, whose columns are not known here',
  };
}

function valuesOf(lines: readonly GridLine[], run: Run, column: number): string[] {
  const values: string[] = [];
  for (let at = run.first; at < run.end && values.length < mostRows; at += 1)
    if (lines[at].cells.length === run.width) values.push(lines[at].cells[column] ?? '');
  return values;
}

function gridTable(
  lines: readonly GridLine[],
  run: Run,
  chosen: readonly Run[],
  index: number,
  kind: GridKind,
): GridTable {
  const doubts: Doubt[] = [];
  const layout: WrittenLayout = kind.sheet === undefined ? {} : { sheet: kind.sheet };
  const part = chosen.length > 1 ? `parts.part-${index + 1}` : 'file';
  const begin = beginOf(lines, run, kind);
  const header = run.header === undefined ? undefined : lines[run.header];
  const narrow = header !== undefined && filledWidth(lines, run) > header.cells.length;
  if (header === undefined || narrow) {
    Object.assign(layout, { header: false }, skipped(lines[run.first].line - 1));
    doubts.push({
      where: `${part}.header`,
      text: narrow
        ? 'rows have more cells than the header names, so columns are named by their place from 1'
        : 'no line names the columns, so they are told by their place and their values alone',
    });
  } else {
    if (begin !== undefined) layout.header_begins = begin;
    else Object.assign(layout, skipped(header.line - 1));
    if (begin === undefined && header.line > 1)
      doubts.push({
        where: `${part}.skip_lines`,
        text: `${header.line - 1} lines before the header are skipped by number; files with more or fewer of them need another number`,
      });
    if (run.unitRow !== undefined) layout.unit_row = true;
    if (run.between > 0) layout.skip_after_header = run.between;
  }
  const until = untilLine(lines, run, chosen, kind);
  if (until !== undefined) {
    layout.until_line = until;
    doubts.push({
      where: `${part}.until_line`,
      text: `the table is taken to end before the first line that begins with "${until}"`,
    });
  }
  const columns = columnsOf(
    lines,
    run,
    header === undefined || narrow ? undefined : header.cells,
    narrow ? header?.cells : undefined,
  );
  const mark = header === undefined || kind.isSheet ? undefined : rawBegin(header, kind, 2);
  return {
    layout,
    columns,
    nested: false,
    doubts,
    firstLine: lines[run.first].line,
    weight: run.weight,
    ...(mark === undefined ? {} : { mark }),
  };
}

function skipped(count: number): WrittenLayout {
  return count > 0 ? { skip_lines: count } : {};
}

/** The widest row, without empty cells at its end. */
function filledWidth(lines: readonly GridLine[], run: Run): number {
  let widest = 0;
  for (let at = run.first; at < Math.min(run.end, run.first + 200); at += 1)
    if (lines[at].cells.length === run.width)
      widest = Math.max(widest, lines[at].cells.findLastIndex((cell) => cell !== '') + 1);
  return widest;
}

/** The beginning of the header line by which it is found, where lines stand before it; none of them begins so. */
function beginOf(lines: readonly GridLine[], run: Run, kind: GridKind): string | undefined {
  const header = run.header === undefined ? undefined : lines[run.header];
  if (header === undefined || header.line === 1) return undefined;
  const before = lines.slice(0, run.header);
  for (const cells of [1, 2, 3]) {
    const begin = rawBegin(header, kind, cells);
    if (begin.replaceAll(/\W/g, '').length < 1) continue;
    if (!before.some(({ text }) => text.startsWith(begin))) return begin;
  }
  return undefined;
}

/** The header line as it stands in the file, up to the end of one of its cells. */
function rawBegin(header: GridLine, { isSheet, delimiter = ',' }: GridKind, cells: number): string {
  if (isSheet) return header.text;
  let end = -1;
  for (let count = 0; count < cells; count += 1) {
    const next = header.text.indexOf(delimiter, end + 1);
    if (next < 0) return header.text;
    end = next;
  }
  return header.text.slice(0, end + 1).trimEnd();
}

/** What the first line after a table begins with, where any follows; never what a row begins with. */
function untilLine(lines: readonly GridLine[], run: Run, chosen: readonly Run[], kind: GridKind): string | undefined {
  const rows = lines.slice(run.first, run.end);
  let after = lines.slice(run.end).find(({ cells }) => cells.some((cell) => cell !== ''));
  if (after === undefined && !kind.isSheet && kind.tail.length > 0 && run === chosen.at(-1))
    after = footerOf(run, kind);
  if (after === undefined) return undefined;
  const begin = (kind.isSheet ? after.text : rawBegin(after, kind, 1))
    .replace(/(?<=\p{L})\s*[:=].*$/su, '')
    .replace(/(?<=\p{L}\D*)\d.*$/su, '')
    .trim();
  const text =
    kind.isSheet || kind.delimiter === undefined ? begin : begin.replace(new RegExp(`\\${kind.delimiter}$`), '').trim();
  if (text === '' || !/\p{L}/u.test(text) || rows.some((row) => row.text.startsWith(text))) return undefined;
  return text;
}

/** The first line of those at the end of a long file that are no rows. */
function footerOf(run: Run, { tail, delimiter = ',', quote = '"' }: GridKind): GridLine | undefined {
  const last = splitLines(tail.join('\n'), delimiter, quote);
  const row = last.findLastIndex(
    ({ cells }) => cells.length === run.width && findRuns([{ line: 1, cells, text: '' }]).length > 0,
  );
  return row < 0 ? undefined : last.slice(row + 1).find(({ cells }) => cells.some((cell) => cell !== ''));
}

function columnsOf(
  lines: readonly GridLine[],
  run: Run,
  names: readonly string[] | undefined,
  hints: readonly string[] | undefined,
): DraftColumn[] {
  const units = run.unitRow === undefined ? undefined : lines[run.unitRow].cells;
  const count = names === undefined ? run.width : names.length;
  return Array.from({ length: count }, (_, index) => {
    const name = names?.[index] ?? '';
    const isNamed = name !== '' && names?.filter((other) => other === name).length === 1;
    const sharesName = (names?.filter((other) => withoutUnit(other) === withoutUnit(name)).length ?? 0) > 1;
    const unit = units?.[index];
    return {
      ref: isNamed ? name : index + 1,
      name: name || (hints?.[index] ?? ''),
      ...(sharesName ? { sharesName } : {}),
      ...(unit === undefined || unit === '' ? {} : { unitBelow: unit }),
      values: valuesOf(lines, run, index),
    };
  });
}
