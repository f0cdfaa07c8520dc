import { extname, join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { bundleFiles, type InputFile } from './find-inputs.ts';
import { isPacked, unpackInto } from './unpack.ts';

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
export async function unpackedBundle(path: string, folder: string): Promise<BundleInput[]> {
  if (extname(path).toLowerCase() !== '.zip')
    return Promise.all(bundleFiles(path).map((file, index) => unpackedFile(file, join(folder, String(index)))));
  const into = join(folder, 'archive');
  await unpackInto(path, into);
  const name = path.split(/[\\/]/).at(-1) ?? path;
  return bundleFiles(into).map((file) => ({
    from: path,
    file: { ...file, name: file.name.replace(/^archive(?=[\\/])/, name) },
  }));
}

async function unpackedFile(file: InputFile, folder: string): Promise<BundleInput> {
  if (!isPacked(file.path)) return { file, from: file.path };
  try {
    const [{ path }] = await unpackInto(file.path, folder);
    return { file: { ...file, path }, from: file.path };
  } catch (error) {
    if (error instanceof DryholdError) return { file, from: file.path, unreadable: error };
    throw error;
  }
}
