import { DryholdError } from '../errors.ts';

/** Whether the engine met a fault of its own: after that it does nothing more until it is opened anew. */
export function isBreakdown(error: unknown): boolean {
  return error instanceof Error && error.message.startsWith('INTERNAL Error');
}

/** Whether the engine refuses all work because it broke down before. */
export function isAfterBreakdown(error: unknown): boolean {
  return error instanceof Error && error.message.includes('database has been invalidated');
}

/** A breakdown as an error that names the file that it happened on; any other error comes back as it is. */
export function breakdownOn(path: string, error: unknown): unknown {
  if (!isBreakdown(error)) return error;
  const problem = (error as Error).message.split('\n')[0].replace(/^INTERNAL Error: /, '');
  return new DryholdError('engine-broken', { path, problem }, error);
}
