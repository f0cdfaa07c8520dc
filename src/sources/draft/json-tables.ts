import { fileKindOf } from '../file-kinds.ts';
import { rowsBelow } from '../json-path.ts';
import { cellText } from '../xlsx.ts';
import type { FileContent } from './file-content.ts';
import type { DraftColumn, DraftTable, FoundTables, HeadPlace } from './draft.ts';
import { styleOf } from './column-view.ts';
import { closedJson } from './json-sample.ts';
import { meaningByName } from './meaning.ts';
import { recordTableOf } from './record-table.ts';
import { tableViews } from './table-views.ts';

type Around = readonly unknown[];

const mostRows = 1000;
const deepest = 6;
/** A longer list of plain values within a row is no set of columns. */
const longestList = 12;

/** The rows of a JSON document, wherever they are in it; undefined where it holds none. */
export function jsonTables(
  name: string,
  content: Extract<FileContent, { text: string }>,
): FoundTables | { readonly problem: string } | undefined {
  const text = content.text.replace(/^\uFEFF/, '');
  const document: unknown = JSON.parse(closedJson(text) ?? 'null');
  const [longest] = listsIn(document, []).toSorted((a, b) => b.count - a.count || a.steps.length - b.steps.length);
  const problem = longest === undefined ? unreadableLists(document) : undefined;
  if (problem !== undefined) return { problem };
  const isObject = typeof document === 'object' && document !== null && !Array.isArray(document);
  if (longest === undefined && !isObject) return undefined;
  const steps = longest?.steps ?? [];
  const rows = longest === undefined ? [[document]] : rowsAt(document, steps);
  const path = pathOf(steps);
  const whole = nestedTable(rows, layoutOf(steps));
  // The lists around the rows may be of the jobs that the rows belong to.
  const around = steps.flatMap((step, at) => (step === '*' ? [steps.slice(0, at)] : []));
  const jobs = around.map((outer) => nestedTable(rowsAt(document, outer), layoutOf(outer), true)).filter(listsJobs);
  const table = withoutJobs(whole, jobs);
  return {
    kind: 'json',
    content: `a JSON document with its rows ${path === '' ? 'at its top' : `at ${path}`}`,
    file: fileOf(name, 'json', content),
    tables: [...jobs, table],
    heads: longest === undefined ? [] : headsOf(document),
    doubts: [],
  };
}

/** The rows of newline-delimited JSON: its lines, or a list within each. */
export function ndjsonTables(name: string, content: Extract<FileContent, { text: string }>): FoundTables | undefined {
  const objects = content.text
    .replace(/^\uFEFF/, '')
    .split('\n', mostRows)
    .flatMap((line) => parsedObject(line) ?? []);
  if (objects.length === 0) return undefined;
  const within = new Map<string, { steps: readonly string[]; count: number }>();
  for (const object of objects)
    for (const list of listsIn(object, [])) {
      const key = list.steps.join('.');
      within.set(key, { steps: list.steps, count: (within.get(key)?.count ?? 0) + list.count });
    }
  const [longest] = [...within.values()].toSorted((a, b) => b.count - a.count);
  const steps = longest !== undefined && longest.count > objects.length ? longest.steps : [];
  const path = pathOf(steps);
  const whole = nestedTable(firstRows(objects, steps), layoutOf(steps));
  const jobs = path === '' ? [] : [nestedTable(firstRows(objects, []), {}, true)].filter(listsJobs);
  const table = withoutJobs(whole, jobs);
  return {
    kind: 'ndjson',
    content: `newline-delimited JSON${path === '' ? '' : ` with its rows at ${path} of each line`}`,
    file: fileOf(name, 'ndjson', content),
    tables: [...jobs, table],
    heads: [],
    doubts: [],
  };
}

/** The rows of a list somewhere in a document; what holds the outermost list is not around them. */
function rowsAt(document: unknown, steps: readonly string[]): Around[] {
  const star = steps.indexOf('*');
  const outer = star < 0 ? steps : steps.slice(0, star);
  const from = Array.isArray(document) ? document : undefined;
  const listed = outer.reduce<unknown>(
    (value, step) => (value as Record<string, unknown> | undefined)?.[step],
    document,
  );
  return firstRows(Array.isArray(listed) ? listed : (from ?? [document]), star < 0 ? [] : steps.slice(star + 1));
}

function pathOf(steps: readonly string[]): string {
  return steps.join('.').replace(/(?:^|\.)\*$/, '');
}

function layoutOf(steps: readonly string[]): DraftTable['layout'] {
  const path = pathOf(steps);
  return path === '' ? {} : { rows_at: path };
}

/** Whether a table says of each row's job what a record of it needs. */
function listsJobs(table: DraftTable): boolean {
  return recordTableOf(tableViews(table, styleOf([table]))) === 'jobs';
}

/** A table without the columns of its jobs that these feed themselves. */
function withoutJobs(table: DraftTable, jobs: readonly DraftTable[]): DraftTable {
  const known = (name: string, of: DraftTable) =>
    tableViews(of, styleOf([of])).flatMap((view) => (meaningByName(name, view) === undefined ? [] : [view.column]));
  const fed = new Set(jobs.flatMap((each) => known('jobs', each)).map(({ name }) => name));
  const read = new Set(known('readings', table));
  const isFed = (column: DraftColumn) => String(column.ref).startsWith('^') && fed.has(column.name);
  return { ...table, columns: table.columns.filter((column) => read.has(column) || !isFed(column)) };
}

function fileOf(
  name: string,
  kind: 'json' | 'ndjson',
  content: Extract<FileContent, { text: string }>,
): FoundTables['file'] {
  return {
    ...(fileKindOf(name)?.id === kind ? {} : { kind }),
    ...(content.encoding === 'utf-8' || content.marked ? {} : { encoding: content.encoding }),
  };
}

function parsedObject(line: string): object | undefined {
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === 'object' && value !== null ? value : undefined;
  } catch {
    return undefined;
  }
}

/** Lists that hold readings in a way that no map can say; undefined where there are none. */
function unreadableLists(value: unknown, depth = 0): string | undefined {
  if (typeof value !== 'object' || value === null || depth > deepest) return undefined;
  if (Array.isArray(value) && value.length > 1 && value.every((each) => Array.isArray(each)))
    return 'its rows are lists without names, which no source map reads; export objects with names, or CSV';
  const lists = Object.values(value).filter(
    (each) => Array.isArray(each) && each.length > 1 && each.every((one) => typeof one !== 'object'),
  );
  if (
    !Array.isArray(value) &&
    lists.length > 1 &&
    lists.every((list) => (list as unknown[]).length === (lists[0] as unknown[]).length)
  )
    return 'its columns are lists side by side, which no source map reads; export one object for each reading, or CSV';
  for (const inner of Object.values(value)) {
    const problem = unreadableLists(inner, depth + 1);
    if (problem !== undefined) return problem;
  }
  return undefined;
}

/** The lists of objects by their path, and how many elements all of a path have. */
function listsIn(value: unknown, steps: readonly string[]): { steps: readonly string[]; count: number }[] {
  const found = new Map<string, { steps: readonly string[]; count: number }>();
  const visit = (at: unknown, path: readonly string[]) => {
    if (typeof at !== 'object' || at === null || path.length > deepest) return;
    if (!Array.isArray(at)) {
      for (const [key, inner] of Object.entries(at)) if (!key.includes('.') && key !== '') visit(inner, [...path, key]);
      return;
    }
    const rows = at.filter((element) => typeof element === 'object' && element !== null && !Array.isArray(element));
    if (rows.length === 0) return;
    const key = path.join('.');
    const steps = path.length === 0 ? [] : path;
    found.set(key, { steps: [...steps], count: (found.get(key)?.count ?? 0) + rows.length });
    for (const row of rows.slice(0, mostRows)) visit(row, [...path, '*']);
  };
  visit(value, steps);
  // A list's own path ends at its name: the star that follows stands for its elements.
  return [...found.values()];
}

function firstRows(elements: readonly unknown[], steps: readonly string[]): Around[] {
  const rows: Around[] = [];
  for (const element of elements) {
    for (const around of rowsBelow([element], steps)) {
      if (rows.length >= mostRows) return rows;
      rows.push(around);
    }
  }
  return rows;
}

/** The columns of rows that lie in other objects; `holdRows` where these are the objects that others lie in. */
function nestedTable(rows: readonly Around[], layout: DraftTable['layout'], holdRows = false): DraftTable {
  const columns = new Map<string, { ref: string | number; name: string; values: string[] }>();
  for (const [index, around] of rows.entries()) {
    for (const [level, value] of around.entries()) {
      // The row itself and the objects around it; what holds the list is skipped.
      for (const { path, name, text } of leaves(value, level > 0)) {
        const ref = level === 0 ? path : `${'^'.repeat(level)}${path}`;
        // What the object around the readings calls its id is the job's.
        const called = (holdRows || level > 0) && /^(?:id|no|nr|number|key)$/i.test(name) ? `job ${name}` : name;
        let column = columns.get(String(ref));
        if (column === undefined) columns.set(String(ref), (column = { ref, name: called, values: [] }));
        while (column.values.length < index) column.values.push('');
        column.values[index] = text;
      }
    }
  }
  const all: DraftColumn[] = [...columns.values()].map(({ ref, name, values }) => ({
    ref,
    name,
    values: [...values, ...Array.from({ length: rows.length - values.length }, () => '')],
  }));
  return { layout, columns: all, nested: true, doubts: [] };
}

/** The plain values below one, by path: of objects by name, of short lists by place. */
function* leaves(
  value: unknown,
  isOuter: boolean,
  path: readonly string[] = [],
): Generator<{ path: string | number; name: string; text: string }> {
  if (typeof value !== 'object' || value === null) {
    if (path.length === 0) return;
    // A row that is a list has places for columns.
    const ref = path.length === 1 && /^\d+$/.test(path[0]) ? Number(path[0]) + 1 : path.join('.');
    const name = /^\d+$/.test(path.at(-1) ?? '') && path.length === 1 ? '' : path.join(' ');
    yield { path: ref, name, text: cellText(value) };
    return;
  }
  if (path.length >= 4 || (isOuter && path.length >= 2)) return;
  if (
    Array.isArray(value) &&
    (value.length > longestList || value.some((each) => typeof each === 'object' && each !== null))
  )
    return;
  for (const [key, inner] of Object.entries(value as Record<string, unknown>))
    yield* leaves(inner, isOuter, [...path, key]);
}

/** Values that stand once in a document: all that are in no list. */
function headsOf(document: unknown): HeadPlace[] {
  if (Array.isArray(document)) return [];
  return [...leaves(document, false)].map(({ path, text }) => ({
    label: String(path).split('.').slice(-2).join(' '),
    at: { path: String(path) },
    value: text,
  }));
}
