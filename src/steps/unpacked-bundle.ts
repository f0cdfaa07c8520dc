import { extname, join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { tableNamed } from '../records/tables.ts';
import { bundleFiles, type InputFile, type NamedPath } from './find-inputs.ts';
import { isPacked, packedWithin, unpackInto } from './unpack.ts';

/** A file of a bundle, or why what is packed cannot be unpacked. */
export interface BundleInput {
  readonly file: InputFile;
  /** Where it lies, packed or not. */
  readonly from: string;
  readonly unreadable?: DryholdError;
}

/**
 * The files of a bundle: those of a folder, packed ones unpacked into another folder first, or those of an archive.
 *
 * @param folder where to unpack to; the caller removes it
 * @throws DryholdError `nothing-to-read`; `file-unreadable` for an archive that cannot be unpacked
 */
export async function unpackedBundle({ path, name }: NamedPath, folder: string): Promise<BundleInput[]> {
  if (extname(path).toLowerCase() !== '.zip')
    return Promise.all(bundleFiles(path, name).map((file, index) => unpackedFile(file, join(folder, String(index)))));
  const into = join(folder, 'archive');
  const found = await unpackInto(path, into);
  // Who packs a folder gets the folder in the archive.
  const tops = new Set(found.map((file) => file.name.split('/')[0]));
  const [only] = tops;
  const isFolder = tops.size === 1 && found.every((file) => file.name.includes('/')) && tableNamed(only) === undefined;
  const top = isFolder ? join(into, only) : into;
  try {
    return bundleFiles(top, isFolder ? join(name, only) : name).map((file) => ({
      from: path,
      file,
      ...(isPacked(file.path) ? { unreadable: unreadable(file, packedWithin) } : {}),
    }));
  } catch (error) {
    if (!(error instanceof DryholdError) || error.code !== 'nothing-to-read') throw error;
    throw new DryholdError('nothing-to-read', { ...(error.parameters as { expected: string }), path }, error);
  }
}

async function unpackedFile(file: InputFile, folder: string): Promise<BundleInput> {
  if (file.problem !== undefined) return { file, from: file.path, unreadable: unreadable(file, file.problem) };
  if (!isPacked(file.path)) return { file, from: file.path };
  try {
    const [{ path }] = await unpackInto(file.path, folder);
    return { file: { ...file, path }, from: file.path };
  } catch (error) {
    if (error instanceof DryholdError) return { file, from: file.path, unreadable: error };
    throw error;
  }
}

function unreadable({ path }: InputFile, problem: string): DryholdError {
  return new DryholdError('file-unreadable', { path, problem });
}
