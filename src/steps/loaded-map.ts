import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { readSourceMap } from '../sources/parse-source-map.ts';
import type { SourceMap } from '../sources/source-map.ts';

/** A source map with what identifies it. */
export interface LoadedMap {
  readonly map: SourceMap;
  readonly path: string;
  readonly sha256: string;
}

/**
 * Reads a source map.
 *
 * @throws DryholdError `file-not-found`, `map-invalid`
 */
export function loadMap(path: string): LoadedMap {
  const map = readSourceMap(path);
  return { map, path, sha256: createHash('sha256').update(readFileSync(path)).digest('hex') };
}
