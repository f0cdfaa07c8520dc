import type { Source } from '../records/tables/sources.ts';
import type { Overruled } from '../store/fed-readings.ts';

/** What an ingest did. */
export interface IngestResult {
  /** One row per file and table that was read now. */
  readonly sources: Source[];
  /** Files that the store already had, byte by byte. */
  readonly alreadyIn: string[];
  /** Column names that the tables do not have, by file; they were left out. */
  readonly unknownColumns: { file: string; columns: string[] }[];
  /** Files that could not be read at all; each is a row of `rejects` with line 0. */
  readonly refusedFiles: { file: string; detail: string }[];
  /** Files whose readings of some jobs gave way, wholly or in part, to those of a later one that contradicts them. */
  readonly overruled: Overruled[];
  /** Files of a folder that no map is meant for; they were not looked into. */
  readonly leftAside: string[];
  /** Files that could hold a table, in folders where nothing is named after one; they were not looked into either. */
  readonly namedAfterNone: string[];
}

/** What an ingest that did nothing did. */
export function nothingIngested(): IngestResult {
  return {
    sources: [],
    alreadyIn: [],
    unknownColumns: [],
    refusedFiles: [],
    overruled: [],
    leftAside: [],
    namedAfterNone: [],
  };
}

/** Adds what came of a part to what came of all. */
export function addResult(all: IngestResult, part: IngestResult): void {
  all.sources.push(...part.sources);
  all.alreadyIn.push(...part.alreadyIn);
  all.unknownColumns.push(...part.unknownColumns);
  all.refusedFiles.push(...part.refusedFiles);
  all.overruled.push(...part.overruled);
  all.leftAside.push(...part.leftAside);
  all.namedAfterNone.push(...part.namedAfterNone);
}
