import type { SentError } from './sent-error.ts';
import type { SlicedFacts, SliceTask } from './slice-facts.ts';

/** To a thread of `MeasuredFactsPool`. */
export type Request = SliceTask | 'end';

/** From a thread of `MeasuredFactsPool`. */
export type Answer = { readonly facts: SlicedFacts[] } | SentError;
