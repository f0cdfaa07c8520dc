import { rowParser } from '../records/row.ts';
import type { Table } from '../records/table.ts';
import { tableNamed } from '../records/tables.ts';
import type { WrittenMap } from '../sources/draft/draft.ts';
import { noLogStarts } from '../sources/log-clock.ts';
import { judgedRows } from '../sources/judged-rows.ts';
import { mappedFile, mappedParts } from '../sources/open-mapped.ts';
import { parseSourceMap } from '../sources/parse-source-map.ts';
import type { FileKind } from '../sources/source-file.ts';
import type { Store } from '../store/store.ts';
import { openMapped } from './stage-mapped.ts';

/** So many rows of a file are tried, and so many of each table shown. */
const mostTried = 1000;
const mostShown = 5;

/** What a map makes of the first rows of a file, for one table of ours. */
export interface MapTrial {
  readonly table: string;
  /** The columns that the map feeds, in their order. */
  readonly columns: readonly string[];
  /** The first rows as they would come in, in the interchange units. */
  readonly rows: readonly Readonly<Record<string, unknown>>[];
  /** How many rows of the file were tried, and how many of those would be refused. */
  readonly tried: number;
  readonly refused: number;
  /** Why, commonest first, with the first line of each. */
  readonly reasons: readonly { readonly reason: string; readonly count: number; readonly line: number }[];
}

interface Trial {
  readonly table: Table;
  readonly columns: Set<string>;
  readonly parse: ReturnType<typeof rowParser>;
  readonly rows: Record<string, unknown>[];
  tried: number;
  refused: number;
  readonly reasons: Map<string, { reason: string; count: number; line: number }>;
}

/**
 * Tries a map on the first rows of a file.
 *
 * @param store needed for the kinds that the store's engine reads
 * @param path a file that the map was drafted for; read as far as its first thousand rows
 * @throws DryholdError `file-unreadable`, `map-invalid`
 */
export async function triedMap(
  store: Store | undefined,
  written: WrittenMap,
  kind: FileKind['id'],
  path: string,
): Promise<MapTrial[]> {
  const map = parseSourceMap(JSON.stringify(written), 'the draft');
  const trials = new Map<string, Trial>();
  for (const { table: name, columns } of map.rows) {
    const table = tableNamed(name) as Table;
    const trial = trials.get(name) ?? newTrial(table);
    for (const column of Object.keys(columns)) trial.columns.add(column);
    trials.set(name, trial);
  }
  const parsers = new Map([...trials].map(([name, { parse }]) => [name, parse]));
  for (const part of mappedParts(map)) {
    const source = await openMapped(store as Store, kind, path, part);
    try {
      const file = await mappedFile({ map, path: 'the draft' }, kind, path, part, source, noLogStarts());
      await tryRows(trials, judgedRows(file, part.entries, source, parsers));
    } finally {
      await source.close?.();
    }
  }
  return [...trials.values()].map(({ table, columns, rows, tried, refused, reasons }) => ({
    table: table.name,
    columns: Object.keys(table.schema.shape).filter((name) => columns.has(name)),
    rows,
    tried,
    refused,
    reasons: [...reasons.values()].toSorted((a, b) => b.count - a.count || a.line - b.line).slice(0, 3),
  }));
}

function newTrial(table: Table): Trial {
  return { table, columns: new Set(), parse: rowParser(table), rows: [], tried: 0, refused: 0, reasons: new Map() };
}

async function tryRows(trials: ReadonlyMap<string, Trial>, rows: ReturnType<typeof judgedRows>): Promise<void> {
  let tried = 0;
  for await (const { rows: taken, refused } of rows) {
    for (const name of new Set([...taken, ...refused].map(({ table }) => table))) {
      const trial = trials.get(name);
      if (trial !== undefined) trial.tried += 1;
    }
    for (const { table, problem, source } of refused) {
      const trial = trials.get(table);
      if (trial !== undefined) refuse(trial, problem, source.line);
    }
    for (const { table, row } of taken) {
      const trial = trials.get(table);
      if (trial !== undefined && trial.rows.length < mostShown) trial.rows.push(row);
    }
    tried += 1;
    if (tried >= mostTried) break;
  }
}

/** Reasons that differ only in the value count as one. */
function refuse(trial: Trial, problem: string, line: number): void {
  trial.refused += 1;
  const key = problem.replaceAll(/"(?:[^"\\]|\\.)*"|-?\d+(?:\.\d+)?(?:e[+-]?\d+)?/g, '…');
  const reason = trial.reasons.get(key) ?? { reason: problem, count: 0, line };
  reason.count += 1;
  trial.reasons.set(key, reason);
}
