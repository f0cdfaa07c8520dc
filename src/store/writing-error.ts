import { DryholdError, machineProblem } from '../errors.ts';

/** What a machine says where it is no mistake of a name. */
const ofWriting: ReadonlySet<string> = new Set(['ENOSPC', 'EACCES', 'EPERM', 'EROFS', 'EIO', 'EDQUOT']);

/**
 * An error of the engine or the file system as `store-unwritable` where the machine could not write: disk full, no
 * permission, out of memory. Any other error comes back as it is.
 */
export function writingError(folder: string, error: unknown): unknown {
  if (error instanceof DryholdError || !(error instanceof Error)) return error;
  // A file that breaks off is told as an error of reading; the rest of a delivery does not end with it.
  const ofReading = /Could not read enough bytes|file might be corrupted/.test(error.message);
  const ofMachine = !ofReading && /\bIO Error|Out of Memory Error|FATAL Error/.test(error.message);
  const { code } = error as NodeJS.ErrnoException;
  if (code !== undefined && !ofWriting.has(code)) return error;
  const problem = machineProblem(error) ?? (ofMachine ? error.message.split('\n')[0] : undefined);
  return problem === undefined ? error : new DryholdError('store-unwritable', { path: folder, problem }, error);
}
