import { DryholdError } from '../errors.ts';

/**
 * An error of the engine or the file system as `store-unwritable` where the machine could not write: disk full, no
 * permission, out of memory. Any other error comes back as it is.
 */
export function writingError(folder: string, error: unknown): unknown {
  if (error instanceof DryholdError || !(error instanceof Error)) return error;
  const { code } = error as NodeJS.ErrnoException;
  // A file that breaks off is told as an error of reading; the rest of a delivery does not end with it.
  const ofReading = /Could not read enough bytes/.test(error.message);
  const ofMachine = !ofReading && /\bIO Error|Out of Memory Error|No space left|FATAL Error/.test(error.message);
  if (!ofMachine && !['ENOSPC', 'EACCES', 'EPERM', 'EROFS', 'EIO', 'EDQUOT'].includes(code ?? '')) return error;
  return new DryholdError('store-unwritable', { path: folder, problem: error.message.split('\n')[0] }, error);
}
