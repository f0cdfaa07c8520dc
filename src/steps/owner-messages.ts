import type { OwnerFigures } from '../pages/owner-data.ts';
import type { SentError } from './sent-error.ts';

/** What the thread of `OwnerThread` is started with. */
export interface OwnerTask {
  readonly folder: string;
  readonly options: { readonly codes: boolean };
}

/** From that thread; it is told nothing but 'end'. */
export type OwnerAnswer = { readonly data: OwnerFigures } | SentError;
