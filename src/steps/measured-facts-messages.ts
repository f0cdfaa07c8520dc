import { DryholdError, type ErrorCode, type ErrorParameters } from '../errors.ts';
import type { SlicedFacts, SliceTask } from './slice-facts.ts';

/** To a thread of `MeasuredFactsPool`. */
export type Request = SliceTask | 'end';

/** What went wrong: an error itself loses its class on the way to another thread. */
type Failure =
  | { readonly problem: string }
  | { readonly code: ErrorCode; readonly parameters: ErrorParameters[ErrorCode] };

/** From a thread of `MeasuredFactsPool`. */
export type Answer = { readonly facts: SlicedFacts[] } | Failure;

/** An error as data. */
export function sendable(error: unknown): Failure {
  if (error instanceof DryholdError) return { code: error.code, parameters: error.parameters };
  return { problem: error instanceof Error ? error.message : String(error) };
}

/** The error that was sent. */
export function received(failure: Failure): Error {
  return 'code' in failure ? new DryholdError(failure.code, failure.parameters) : new Error(failure.problem);
}
