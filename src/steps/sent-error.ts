import { DryholdError, type ErrorCode, type ErrorParameters } from '../errors.ts';

/** What went wrong, as data: an error itself loses its class on the way to another thread. */
export type SentError =
  | { readonly problem: string }
  | { readonly code: ErrorCode; readonly parameters: ErrorParameters[ErrorCode] };

/** An error as data. */
export function sendable(error: unknown): SentError {
  if (error instanceof DryholdError) return { code: error.code, parameters: error.parameters };
  return { problem: error instanceof Error ? error.message : String(error) };
}

/** The error that was sent. */
export function received(sent: SentError): Error {
  return 'code' in sent ? new DryholdError(sent.code, sent.parameters) : new Error(sent.problem);
}
