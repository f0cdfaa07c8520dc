import type { DeliveredFile } from './delivered-file.ts';
import type { ReadingPart } from './reading-part.ts';

/** The readings of a delivery. */
export interface DeliveredReadings {
  readonly parts: readonly ReadingPart[];
  readonly files: readonly DeliveredFile[];
  /** Whether any were staged row by row. */
  readonly staged: boolean;
  /** Gives the path of a file for readings that are not yet known to the store. */
  readonly newPath: () => string;
}
