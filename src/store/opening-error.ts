import { DryholdError, machineProblem } from '../errors.ts';

/** An error on opening a store: somebody else holds it, this machine may not write it, or it is no store. */
export function openingError(folder: string, mode: 'read' | 'write', error: unknown): unknown {
  if (error instanceof DryholdError) return error;
  const message = (error as Error).message;
  if (message.includes('Conflicting lock')) {
    const process = /PID (\d+)/.exec(message)?.[1];
    return new DryholdError(
      'store-busy',
      { path: folder, holder: process ? `process ${process}` : 'another process' },
      error,
    );
  }
  const problem = mode === 'write' ? machineProblem(error) : undefined;
  if (problem !== undefined) return new DryholdError('store-unwritable', { path: folder, problem }, error);
  return new DryholdError('store-unreadable', { path: folder, problem: message.split('\n')[0] }, error);
}
