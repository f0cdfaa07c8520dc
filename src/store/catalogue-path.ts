import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** What the database of a store is called in its folder. */
export const catalogueName = 'catalogue.duckdb';

/** Whether a store lies in a folder. */
export function holdsStore(folder: string): boolean {
  return existsSync(join(folder, catalogueName));
}
