import { join } from 'node:path';
import type { DuckDBConnection } from '@duckdb/node-api';
import { columnsOf, type Table } from '../records/table.ts';
import { type Facts, facts as factsTable } from '../records/tables/facts.ts';
import { type Finding, findings as findingsTable } from '../records/tables/findings.ts';
import { packedBits } from '../traces/curve/curve-bits.ts';
import { cellOf, keptLevels } from '../traces/curve/landmark-index.ts';
import { ColumnStage, type StagedColumn } from './column-stage.ts';
import type { JobCurvePrint } from './curve-prints.ts';
import { columnList, identifier, literal, parquetFiles, sqlType } from './sql.ts';
import type { Store } from './store.ts';

/** What was found of one job. */
export interface JudgedJob {
  /** Absent where they stand in the catalogue and its findings alone are new. */
  readonly facts?: Facts;
  readonly findings: readonly Finding[];
  /** By what its curves are found again. */
  readonly prints: readonly JobCurvePrint[];
}

/** The tables of a part, each a Parquet file. */
const partTables = ['facts', 'findings', 'curves', 'curve_words', 'curve_landmarks'] as const;
type PartTable = (typeof partTables)[number];

/** Texts that differ from row to row; all others are words. */
const texts: ReadonlySet<string> = new Set(['evidence']);

const number = (name: string, type: string): StagedColumn => ({ name, kind: 'number', sqlType: type });
const columns: Readonly<Record<PartTable, readonly StagedColumn[]>> = {
  facts: stagedColumns(factsTable),
  findings: stagedColumns(findingsTable),
  // Numbered from 0 within the part.
  curves: [
    number('curve_id', 'BIGINT'),
    { name: 'job_id', kind: 'text', sqlType: 'VARCHAR' },
    { name: 'column_name', kind: 'word', sqlType: 'VARCHAR' },
    { name: 'gauge', kind: 'word', sqlType: 'VARCHAR' },
    { name: 'bits', kind: 'blob', sqlType: 'BLOB' },
  ],
  curve_words: [number('curve_id', 'BIGINT'), number('word', 'BIGINT'), number('at_row', 'INTEGER')],
  curve_landmarks: [
    number('curve_id', 'BIGINT'),
    number('cell', 'BIGINT'),
    number('at_row', 'INTEGER'),
    { name: 'around', kind: 'blob', sqlType: 'BLOB' },
  ],
};

/**
 * What was found of some jobs, as columns in an engine of any thread, and from there as Parquet files: a thread of judging, or a
 * machine that holds no store, hands over files in place of a million small objects.
 */
export class JudgedPart {
  readonly #connection: DuckDBConnection;
  readonly #stages: Readonly<Record<PartTable, ColumnStage>>;
  #curves = 0;

  private constructor(connection: DuckDBConnection, stages: Readonly<Record<PartTable, ColumnStage>>) {
    this.#connection = connection;
    this.#stages = stages;
  }

  static async begin(connection: DuckDBConnection): Promise<JudgedPart> {
    const stages: Partial<Record<PartTable, ColumnStage>> = {};
    for (const table of partTables)
      stages[table] = await ColumnStage.begin(connection, `part_${table}`, columns[table]);
    return new JudgedPart(connection, stages as Record<PartTable, ColumnStage>);
  }

  add({ facts, findings, prints }: JudgedJob): void {
    if (facts !== undefined) this.#stages.facts.append(facts);
    for (const finding of findings) this.#stages.findings.append(finding);
    if (facts !== undefined) this.addPrints(facts.job_id, prints);
  }

  addPrints(jobId: string, prints: readonly JobCurvePrint[]): void {
    for (const print of prints) this.#addPrint(jobId, print);
  }

  /** Writes what was added as files of a folder that is there, and begins anew. */
  async write(folder: string): Promise<void> {
    for (const table of partTables) {
      const select = this.#stages[table].end();
      await this.#connection.run(
        `COPY (${select}) TO ${literal(join(folder, fileOf(table)))} (FORMAT parquet, COMPRESSION snappy)`,
      );
    }
    await this.clear();
  }

  /** Forgets what was added. */
  async clear(): Promise<void> {
    for (const stage of Object.values(this.#stages)) await stage.clear();
    this.#curves = 0;
  }

  #addPrint(jobId: string, { column, gauge, print }: JobCurvePrint): void {
    const curve_id = this.#curves;
    this.#curves += 1;
    const { curves, curve_words: words, curve_landmarks: landmarks } = this.#stages;
    curves.append({ curve_id, job_id: jobId, column_name: column, gauge, bits: packedBits(print.bits) });
    for (const { word, row } of print.words) words.append({ curve_id, word, at_row: row });
    for (const { kind, row, around } of print.landmarks) {
      const levels = keptLevels(around);
      const cell = cellOf(kind, levels);
      if (cell === undefined) continue;
      landmarks.append({ curve_id, cell, at_row: row, around: new Uint8Array(levels.buffer) });
    }
  }
}

/** Takes the files of a part into the catalogue. */
export async function takePart(store: Store, folder: string): Promise<void> {
  const from = (table: PartTable) => parquetFiles(join(folder, fileOf(table)));
  for (const table of [factsTable, findingsTable])
    await store.run(
      `INSERT INTO ${identifier(table.name)} (${columnList(table)}) SELECT ${columnList(table)} FROM ${from(table.name as PartTable)}`,
    );
  const next = await nextCurve(store);
  for (const table of ['curves', 'curve_words', 'curve_landmarks'] as const) {
    const others = columns[table]
      .slice(1)
      .map(({ name }) => identifier(name))
      .join(', ');
    await store.run(
      `INSERT INTO ${table} (curve_id, ${others}) SELECT ${next} + curve_id, ${others} FROM ${from(table)}`,
    );
  }
}

/** The number of the curve that is taken in next; numbers grow with every one. */
export async function nextCurve(store: Store): Promise<number> {
  const [{ next }] = await store.rows<{ next: number }>('SELECT coalesce(max(curve_id), 0) + 1 AS next FROM curves');
  return next;
}

function fileOf(table: PartTable): string {
  return `${table}.parquet`;
}

function stagedColumns(table: Table): StagedColumn[] {
  return columnsOf(table).map((column) => {
    const isNumber = column.kind === 'number' || column.kind === 'integer' || column.kind === 'flag';
    const kind = isNumber ? 'number' : texts.has(column.name) ? 'text' : 'word';
    return { name: column.name, kind, sqlType: sqlType(column) };
  });
}
