import { unitOfHeader } from './header-unit.ts';
import { type CellShape, amountParts, cellShape } from './cell-shape.ts';
import type { GridLine } from './draft.ts';

/** Lines of data that belong together, with what stands above them, as places in the list of lines. */
export interface Run {
  readonly first: number;
  /** The place after the last line. */
  readonly end: number;
  /** The cells of most of its lines. */
  readonly width: number;
  readonly header?: number;
  readonly unitRow?: number;
  /** Lines between the header, or its units, and the first line of data. */
  readonly between: number;
  /** How much of a table it is: lines times columns that hold numbers or times. */
  readonly weight: number;
}

/** So many lines that are no data may stand within a table before it counts as ended. */
const mostStrayLines = 3;

/** The tables that lines may hold, heaviest first. */
export function findRuns(lines: readonly GridLine[]): Run[] {
  const shapes = lines.map(({ cells }) => cells.map(valueShape));
  const data = shapes.map((line) => isData(line));
  const runs: Run[] = [];
  for (let at = 0; at < lines.length; at += 1) {
    if (!data[at]) continue;
    const end = runEnd(lines, shapes, data, at);
    runs.push(withHeader(lines, shapes, at, end));
    at = end - 1;
  }
  return runs.toSorted((a, b) => b.weight - a.weight);
}

/** An amount with its unit counts as a number. */
function valueShape(text: string): CellShape {
  const shape = cellShape(text);
  if (shape !== 'text') return shape;
  const amount = amountParts(text);
  return amount !== undefined && unitOfHeader(amount.unit) !== undefined ? 'number' : 'text';
}

function isValue(shape: CellShape): boolean {
  return shape === 'number' || shape === 'time';
}

function isData(line: readonly CellShape[]): boolean {
  const filled = line.filter((shape) => shape !== 'empty').length;
  const values = line.filter(isValue).length;
  return values > 0 && (values >= filled * 0.4 || filled >= 4);
}

/** Lines go on as long as they have as many cells, and numbers where the first had any. */
function runEnd(
  lines: readonly GridLine[],
  shapes: readonly CellShape[][],
  data: readonly boolean[],
  first: number,
): number {
  const width = lines[first].cells.length;
  const begun = shapes[first];
  let end = first + 1;
  let afterBlank = false;
  for (let at = first + 1; at < lines.length && at - end <= mostStrayLines; at += 1) {
    const isBlank = shapes[at].every((shape) => shape === 'empty');
    if (isBlank) {
      afterBlank = true;
      continue;
    }
    // Of a sheet the blank rows are left out. A cell may hold line breaks, and is no blank.
    const gap = lines[at].line - lines[at - 1].line > 1;
    afterBlank ||= gap && !lines[at - 1].cells.some((cell) => cell.includes('\n'));
    if (afterBlank && isOtherHeader(lines, shapes, at, first)) break;
    afterBlank = false;
    if (data[at] && lines[at].cells.length === width && alike(begun, shapes[at])) end = at + 1;
  }
  return end;
}

/** Whether words in every cell begin another table; the same header again begins the same one. */
function isOtherHeader(lines: readonly GridLine[], shapes: readonly CellShape[][], at: number, first: number): boolean {
  const isWords = shapes[at].length > 1 && shapes[at].every((shape) => shape === 'text');
  return isWords && !lines.slice(Math.max(0, first - 3), first).some(({ text }) => text === lines[at].text);
}

function alike(a: readonly CellShape[], b: readonly CellShape[]): boolean {
  let same = 0;
  let other = 0;
  for (const [index, shape] of a.entries()) {
    if (shape === 'empty' || b[index] === 'empty') continue;
    if (isValue(shape) === isValue(b[index])) same += 1;
    else other += 1;
  }
  return same > 0 && same >= 2 * other;
}

function withHeader(lines: readonly GridLine[], shapes: readonly CellShape[][], first: number, end: number): Run {
  const width = lines[first].cells.length;
  const body = shapes.slice(first, Math.min(end, first + 200)).filter((line) => line.length === width);
  const filled = columnsWhere(body, width, (shape) => shape !== 'empty');
  const valued = columnsWhere(body, width, isValue);
  const weight = (end - first) * valued.length;
  const above = linesAbove(lines, first, 4);
  const unitRow = above.find((at) => isUnitRow(lines[at].cells, width));
  const rest = unitRow === undefined ? above : above.filter((at) => at < unitRow);
  const header = rest.find((at) => isHeader(lines[at], shapes[at], filled, valued));
  if (header === undefined) {
    // Units with nothing above them are all the names that there are.
    if (unitRow === undefined || rest.length > 0) return { first, end, width, between: 0, weight };
    return { first, end, width, header: unitRow, between: above.filter((at) => at > unitRow).length, weight };
  }
  const begins = unitRow ?? header;
  const between = above.filter((at) => at > begins).length;
  // A line between that is as much a header is one: the nearest counts.
  return { first, end, width, header, ...(unitRow === undefined ? {} : { unitRow }), between, weight };
}

/** The nearest lines above that hold anything, nearest first. */
function linesAbove(lines: readonly GridLine[], first: number, most: number): number[] {
  const found: number[] = [];
  for (let at = first - 1; at >= 0 && found.length < most; at -= 1)
    if (lines[at].cells.some((cell) => cell !== '')) found.push(at);
  return found;
}

function columnsWhere(
  body: readonly (readonly CellShape[])[],
  width: number,
  is: (shape: CellShape) => boolean,
): number[] {
  return Array.from({ length: width }, (_, column) => column).filter(
    (column) => body.filter((line) => is(line[column] ?? 'empty')).length > body.length * 0.3,
  );
}

function isHeader(
  line: GridLine,
  shapes: readonly CellShape[],
  filled: readonly number[],
  valued: readonly number[],
): boolean {
  const named = filled.filter((column) => (shapes[column] ?? 'empty') === 'text');
  // Over a column of numbers stands a word: a number there is data.
  if (valued.some((column) => isValue(shapes[column] ?? 'empty') && !/^\d{1,3}$/.test(line.cells[column])))
    return false;
  if (filled.length === 1) return named.length === 1;
  return named.length >= Math.max(filled.length * 0.6, Math.min(2, filled.length));
}

/** A line below the header in which only units stand. */
function isUnitRow(cells: readonly string[], width: number): boolean {
  const filled = cells.filter((cell) => cell !== '' && cell !== '-' && cell !== '[-]');
  if (filled.length === 0 || cells.length > width + 1) return false;
  const units = filled.filter((cell) => unitOfHeader(bare(cell)) !== undefined);
  const times = filled.filter((cell) =>
    /^[[(]?[hHmMdDyYtTsSaAjJ]{1,4}(?:[-:./ ,][hHmMdDyYsSaAjJ]{1,4})+[\])]?$/.test(cell),
  );
  const share = (units.length + times.length) / filled.length;
  return units.length > 0 && (share >= 0.8 || (units.length > 1 && share >= 0.6));
}

/** A unit without brackets around it. */
export function bare(text: string): string {
  return text.replace(/^[([{]\s*|\s*[)\]}]$/g, '').trim();
}
